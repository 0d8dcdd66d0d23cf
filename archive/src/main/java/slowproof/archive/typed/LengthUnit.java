package slowproof.archive.typed;

import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Units in which a length may be typed. The inch is exactly 25.4 mm. */
public enum LengthUnit {
    MM("mm", "1", List.of("mm")),
    CM("cm", "10", List.of("cm")),
    M("m", "1000", List.of("m")),
    INCH("in", "25.4", List.of("in", "inch", "inches", "zoll", "\"", "″"));

    private final String symbol;
    private final BigDecimal millimetres;
    private final List<String> spellings;

    LengthUnit(String symbol, String millimetres, List<String> spellings) {
        this.symbol = symbol;
        this.millimetres = new BigDecimal(millimetres);
        this.spellings = spellings;
    }

    /** Returns the symbol shown beside a number. */
    public String symbol() {
        return symbol;
    }

    /** Returns how many millimetres one of this unit is, exactly. */
    public BigDecimal millimetres() {
        return millimetres;
    }

    /** Returns a length typed in this unit in mm, exactly, with no more decimals than were typed. */
    BigDecimal toMm(BigDecimal typed) {
        return switch (this) {
            case MM -> typed;
            case CM -> typed.movePointRight(1);
            case M -> typed.movePointRight(3);
            case INCH -> typed.multiply(millimetres);
        };
    }

    /** Returns the word written in the archive. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Returns the unit of a written word, mm when it is none. */
    public static LengthUnit of(String key) {
        for (LengthUnit unit : values()) {
            if (unit.key().equals(key)) {
                return unit;
            }
        }
        return MM;
    }

    static Optional<LengthUnit> spelled(String text) {
        String lower = text.toLowerCase(Locale.ROOT);
        for (LengthUnit unit : values()) {
            if (unit.spellings.contains(lower)) {
                return Optional.of(unit);
            }
        }
        return Optional.empty();
    }
}
