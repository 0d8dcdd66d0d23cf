package slowproof.archive.typed;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Units in which a speed may be typed. */
public enum SpeedUnit {
    MM_PER_S("mm/s", 1, List.of("mm/s", "mm/sec", "mm/sek")),
    M_PER_MIN("m/min", 1000.0 / 60, List.of("m/min")),
    M_PER_S("m/s", 1000, List.of("m/s", "m/sec")),
    FT_PER_MIN("ft/min", 304.8 / 60, List.of("ft/min", "fpm"));

    private final String symbol;
    private final double mmPerS;
    private final List<String> spellings;

    SpeedUnit(String symbol, double mmPerS, List<String> spellings) {
        this.symbol = symbol;
        this.mmPerS = mmPerS;
        this.spellings = spellings;
    }

    /** Returns the symbol shown beside a number. */
    public String symbol() {
        return symbol;
    }

    /** Returns how many mm/s one of this unit is. */
    public double mmPerS() {
        return mmPerS;
    }

    /** Returns the word written in the archive. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Returns the unit of a written word, mm/s when it is none. */
    public static SpeedUnit of(String key) {
        for (SpeedUnit unit : values()) {
            if (unit.key().equals(key)) {
                return unit;
            }
        }
        return MM_PER_S;
    }

    static Optional<SpeedUnit> spelled(String text) {
        String plain = text.toLowerCase(Locale.ROOT).replace(" ", "");
        for (SpeedUnit unit : values()) {
            if (unit.spellings.contains(plain)) {
                return Optional.of(unit);
            }
        }
        return Optional.empty();
    }
}
