package slowproof.files.out;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The units that keys carry at their end, as codes that other programs know. UCUM is the Unified Code for Units of
 * Measure; D-SI is the notation of digital calibration certificates. The D-SI codes, those for percent and ppm
 * among them, are from memory.
 */
enum UnitCode {
    MILLIMETRE("_mm", "mm", "\\milli\\metre", "\\metre", 1e-3),
    MILLIMETRE_PER_SECOND("_mm_s", "mm/s", "\\milli\\metre\\second\\tothe{-1}", "\\metre\\second\\tothe{-1}", 1e-3),
    MILLIMETRE_PER_SECOND_SQUARED(
            "_mm_s2", "mm/s2", "\\milli\\metre\\second\\tothe{-2}", "\\metre\\second\\tothe{-2}", 1e-3),
    MILLIMETRE_PER_MINUTE(
            "_mm_min", "mm/min", "\\milli\\metre\\minute\\tothe{-1}", "\\metre\\second\\tothe{-1}", 1e-3 / 60),
    /** UCUM has whole exponents only, so that a scatter over the root of a length has no code there. */
    MILLIMETRE_PER_ROOT_METRE(
            "_mm_per_sqrt_m", null, "\\milli\\metre\\metre\\tothe{-0.5}", "\\metre\\tothe{0.5}", 1e-3),
    PER_MILLIMETRE("_per_mm", "/mm", "\\milli\\metre\\tothe{-1}", "\\metre\\tothe{-1}", 1e3),
    /** The zero of the Celsius scale is 273.15 K (SI Brochure, 9th edition, 2.3.1). */
    DEGREE_CELSIUS("_c", "Cel", "\\degreecelsius", "\\kelvin", 1),
    KELVIN("_k", "K", "\\kelvin", "\\kelvin", 1),
    PPM_PER_KELVIN("_ppm_per_k", "[ppm]/K", "\\ppm\\kelvin\\tothe{-1}", "\\kelvin\\tothe{-1}", 1e-6),
    DEGREE("_deg", "deg", "\\degree", "\\radian", Math.PI / 180),
    SECOND("_s", "s", "\\second", "\\second", 1),
    PERCENT("_pct", "%", "\\percent", "\\one", 1e-2),
    PPM("_ppm", "[ppm]", "\\ppm", "\\one", 1e-6),
    ONE("_probability", "1", "\\one", "\\one", 1);

    /** Keys of plain numbers: counts, factors, degrees of freedom and the seed. */
    private static final List<String> PLAIN = List.of(
            "seed",
            "passes",
            "passes_outside",
            "pieces",
            "coverage_factor",
            "counter_bits",
            "degrees_of_freedom",
            "effective_degrees_of_freedom",
            "repeatability_degrees_of_freedom",
            "standstill_drift_standstills",
            "largest_stops_per_piece");

    /** The tolerance that holds for 95 % of the pieces: its unit stands before the words. */
    private static final List<String> LENGTHS = List.of("tolerance_mm_at_95");

    private final String ending;
    private final @Nullable String ucum;
    private final String digitalSi;
    private final String base;
    private final double factor;

    UnitCode(String ending, @Nullable String ucum, String digitalSi, String base, double factor) {
        this.ending = ending;
        this.ucum = ucum;
        this.digitalSi = digitalSi;
        this.base = base;
        this.factor = factor;
    }

    /** Returns the unit of a key; empty when the key carries none. */
    static Optional<UnitCode> of(String key) {
        if (PLAIN.contains(key)) {
            return Optional.of(ONE);
        }
        if (LENGTHS.contains(key)) {
            return Optional.of(MILLIMETRE);
        }
        return Arrays.stream(values())
                .filter(unit -> key.endsWith(unit.ending))
                .max(Comparator.comparingInt(unit -> unit.ending.length()));
    }

    /** Returns the UCUM code, or null when there is none. */
    @Nullable
    String ucum() {
        return ucum;
    }

    /** Returns the D-SI code. */
    String digitalSi() {
        return digitalSi;
    }

    /** Returns the unit in SI base units alone, for angles the radian, as D-SI code. */
    String base() {
        return base;
    }

    /** Returns what a figure is multiplied by to have it in that unit. */
    double factor() {
        return factor;
    }

    /** Returns what is added after that: not zero for temperatures in degrees Celsius alone. */
    double offset() {
        return this == DEGREE_CELSIUS ? 273.15 : 0;
    }
}
