package slowproof.files.log;

import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.files.log.ColumnRole.Dimension;

/**
 * A unit that a column of a log can have.
 *
 * @param symbol how it is written
 * @param dimension what it measures
 * @param factor what a number is multiplied with to be in s, mm, mm/s, turns or a ratio
 * @param divisor what it is divided by then; one of the two is 1, so that a number in ms or um stays the nearest double
 */
record LogUnit(String symbol, Dimension dimension, double factor, double divisor) {
    static final LogUnit NONE = new LogUnit("", Dimension.NONE, 1, 1);

    private static final Map<String, LogUnit> KNOWN = Map.ofEntries(
            time("s", 1, 1),
            time("ms", 1, 1e3),
            time("us", 1, 1e6),
            time("ns", 1, 1e9),
            time("min", 60, 1),
            length("mm", 1, 1),
            length("um", 1, 1000),
            length("cm", 10, 1),
            length("m", 1000, 1),
            length("in", 25.4, 1),
            length("ft", 304.8, 1),
            angle("deg", 1, 360),
            angle("rad", 1, 2 * Math.PI),
            angle("turns", 1, 1),
            speed("mm/s", 1, 1),
            speed("m/s", 1000, 1),
            speed("m/min", 1000, 60),
            speed("mm/min", 1, 60),
            speed("ft/min", 304.8, 60),
            Map.entry("pct", new LogUnit("pct", Dimension.SHARE, 1, 100)));

    /** Other ways to write a unit, as found in headings. */
    private static final Map<String, String> SPELLINGS = Map.ofEntries(
            Map.entry("sec", "s"),
            Map.entry("seconds", "s"),
            Map.entry("sek", "s"),
            Map.entry("msec", "ms"),
            Map.entry("µs", "us"),
            Map.entry("μs", "us"),
            Map.entry("µm", "um"),
            Map.entry("μm", "um"),
            Map.entry("°", "deg"),
            Map.entry("degrees", "deg"),
            Map.entry("grad", "deg"),
            Map.entry("inch", "in"),
            Map.entry("\"", "in"),
            Map.entry("%", "pct"),
            Map.entry("u", "turns"),
            Map.entry("rev", "turns"),
            Map.entry("mm_s", "mm/s"),
            Map.entry("m_s", "m/s"),
            Map.entry("m_min", "m/min"),
            Map.entry("mm_min", "mm/min"),
            Map.entry("ft_min", "ft/min"));

    private static Map.Entry<String, LogUnit> time(String symbol, double factor, double divisor) {
        return Map.entry(symbol, new LogUnit(symbol, Dimension.TIME, factor, divisor));
    }

    private static Map.Entry<String, LogUnit> length(String symbol, double factor, double divisor) {
        return Map.entry(symbol, new LogUnit(symbol, Dimension.LENGTH, factor, divisor));
    }

    private static Map.Entry<String, LogUnit> speed(String symbol, double factor, double divisor) {
        return Map.entry(symbol, new LogUnit(symbol, Dimension.SPEED, factor, divisor));
    }

    private static Map.Entry<String, LogUnit> angle(String symbol, double factor, double divisor) {
        return Map.entry(symbol, new LogUnit(symbol, Dimension.LENGTH_OR_ANGLE, factor, divisor));
    }

    /** Returns the unit of that symbol, or null when it is none. */
    static @Nullable LogUnit of(String symbol) {
        String plain = symbol.strip().toLowerCase(Locale.ROOT);
        return KNOWN.get(SPELLINGS.getOrDefault(plain, plain));
    }

    /** Returns true when a column of that dimension may have this unit. */
    boolean fits(Dimension wanted) {
        return dimension == wanted || (wanted == Dimension.LENGTH_OR_ANGLE && dimension == Dimension.LENGTH);
    }

    /** Returns true when the unit is an angle, to be multiplied with the circumference of a roll. */
    boolean angle() {
        return dimension == Dimension.LENGTH_OR_ANGLE;
    }
}
