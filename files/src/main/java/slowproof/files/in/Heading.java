package slowproof.files.in;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A column heading taken apart: what is in the column and in which unit.
 *
 * @param base what is in the column, such as "reference"
 * @param factor what a number is multiplied with to be in mm, mm/s, mm/s2 or the plain unit; 1 without a unit
 * @param decimalShift decimals that the conversion to mm adds (positive) or takes (negative); null when the
 *     factor is no power of ten
 */
record Heading(String base, double factor, @Nullable Integer decimalShift) {
    private static final Map<String, Heading> LENGTHS = Map.of(
            "um", new Heading("", 0.001, 3),
            "mm", new Heading("", 1, 0),
            "cm", new Heading("", 10, -1),
            "m", new Heading("", 1000, -3),
            "in", new Heading("", 25.4, null),
            "ft", new Heading("", 304.8, null));
    private static final Map<String, Heading> SPEEDS = Map.of(
            "mm_s", new Heading("", 1, 0),
            "m_s", new Heading("", 1000, -3),
            "m_min", new Heading("", 1000.0 / 60, null),
            "ft_min", new Heading("", 304.8 / 60, null));
    private static final Map<String, Heading> ACCELERATIONS =
            Map.of("mm_s2", new Heading("", 1, 0), "m_s2", new Heading("", 1000, -3));
    private static final Map<String, Heading> SHARES = Map.of("pct", new Heading("", 1, 0));

    /** What a column of that name must have as unit. */
    enum Kind {
        LENGTH("_um _mm _cm _m _in _ft", LENGTHS),
        SPEED("_mm_s _m_s _m_min _ft_min", SPEEDS),
        ACCELERATION("_mm_s2 _m_s2", ACCELERATIONS),
        SHARE("_pct", SHARES),
        TIME(
                "_s _ms _us _min",
                Map.of(
                        "s", new Heading("", 1, null),
                        "ms", new Heading("", 1e-3, null),
                        "us", new Heading("", 1e-6, null),
                        "min", new Heading("", 60, null))),
        TURNS("_turns", Map.of("turns", new Heading("", 1, null))),
        TEXT("", Map.of());

        private final String suffixes;
        private final Map<String, Heading> units;

        Kind(String suffixes, Map<String, Heading> units) {
            this.suffixes = suffixes;
            this.units = units;
        }

        /** Returns the suffixes that a heading of this kind may have, for messages. */
        String suffixes() {
            return suffixes;
        }
    }

    static String normal(String heading) {
        return heading.strip().toLowerCase(Locale.ROOT);
    }

    /** Bases that begin with another base: their headings are not that other one with an odd unit. */
    private static final List<String> LONGER_BASES = List.of("reference_speed", "reference_turns");

    /** Tells whether a heading ends with a unit, so that numbers stand below it. */
    static boolean hasUnit(String heading) {
        String normal = normal(heading);
        for (Kind kind : Kind.values()) {
            for (String suffix : kind.suffixes.split(" ")) {
                if (!suffix.isEmpty() && normal.endsWith(suffix)) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Tells whether a heading is the base alone or the base with some suffix. */
    static boolean belongs(String heading, String base) {
        String normal = normal(heading);
        for (String longer : LONGER_BASES) {
            if (normal.startsWith(longer) && !base.equals(longer)) {
                return false;
            }
        }
        return normal.equals(base) || normal.startsWith(base + "_");
    }

    /**
     * Returns the heading with its unit understood, or null when the unit is not one of the kind.
     *
     * @param heading heading as written
     * @param base what the column is
     * @param kind what units it may have
     */
    static @Nullable Heading of(String heading, String base, Kind kind) {
        String normal = normal(heading);
        if (kind == Kind.TEXT) {
            return normal.equals(base) ? new Heading(base, 1, 0) : null;
        }
        if (!normal.startsWith(base + "_")) {
            return null;
        }
        Heading unit = kind.units.get(normal.substring(base.length() + 1));
        return unit == null ? null : new Heading(base, unit.factor(), unit.decimalShift());
    }
}
