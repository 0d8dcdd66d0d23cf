package slowproof.files.log;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** What a column of a log can be. The key is how a trial names it in its {@code columns:} mapping. */
public enum ColumnRole {
    /** Time, a number with a unit, or time stamps. */
    TIME(Dimension.TIME, "time", "t", "timestamp", "zeit", "zeitstempel"),
    /** Counter reading. */
    COUNT(Dimension.NONE, "count", "counts", "counter", "pulses", "edges", "zähler", "zaehler", "impulse"),
    /** Reading of the sensor in a unit of length. */
    READING(Dimension.LENGTH, "reading", "indication", "indicated", "anzeige", "messwert"),
    /** Level of channel A. */
    CHANNEL_A(Dimension.NONE, "channel_a", "ch_a", "kanal_a"),
    /** Level of channel B. */
    CHANNEL_B(Dimension.NONE, "channel_b", "ch_b", "kanal_b"),
    /** Position of the reference, a length or an angle of a roll. */
    REFERENCE(
            Dimension.LENGTH_OR_ANGLE,
            "reference",
            "ref",
            "position",
            "axis",
            "referenz",
            "achse",
            "axis_position",
            "achsposition"),
    /** Share of the time without a valid signal. */
    DROPOUT(Dimension.SHARE, "dropout", "dropouts", "ausfall", "aussetzer"),
    /** 1 or the word true while the signal is valid, 0 or false while it is not; nothing else. */
    VALID(Dimension.NONE, "valid", "gültig", "gueltig"),
    /** A signal level that counts as dropout below a threshold; only by mapping, since only a person knows the threshold. */
    LEVEL(Dimension.NONE, "level"),
    /** Speed of a line, only in logs that are read for it. */
    SPEED(
            Dimension.SPEED,
            "speed",
            "line_speed",
            "web_speed",
            "velocity",
            "v",
            "geschwindigkeit",
            "bahngeschwindigkeit",
            "liniengeschwindigkeit");

    /** Which units a column can have. */
    enum Dimension {
        TIME("_s _ms _us _ns _min"),
        LENGTH("_um _mm _cm _m _in _ft"),
        LENGTH_OR_ANGLE("_um _mm _cm _m _in _ft _deg _rad _turns"),
        SHARE("_pct"),
        SPEED("_mm_s _m_s _m_min _mm_min _ft_min"),
        NONE("");

        private final String suffixes;

        Dimension(String suffixes) {
            this.suffixes = suffixes;
        }

        /** Returns the suffixes of headings, for messages. */
        String suffixes() {
            return suffixes;
        }
    }

    private final Dimension dimension;
    private final List<String> names;

    ColumnRole(Dimension dimension, String... names) {
        this.dimension = dimension;
        this.names = List.of(names);
    }

    /** Returns true when a log read for that part may hold this. */
    boolean belongsTo(LogPart part) {
        return switch (part) {
            case BOTH -> this != SPEED;
            case SENSOR -> this != REFERENCE && this != SPEED;
            case REFERENCE -> this == TIME || this == REFERENCE;
            case SPEED -> this == TIME || this == SPEED;
        };
    }

    Dimension dimension() {
        return dimension;
    }

    /** Returns the words by which a heading of this role is recognised, the usual one first. */
    List<String> names() {
        return names;
    }

    /** Returns the units that a column of this role can have, as a trial names them; none for a bare number. */
    public List<String> units() {
        return dimension == Dimension.NONE
                ? List.of()
                : Arrays.stream(dimension.suffixes().split(" "))
                        .map(suffix -> suffix.substring(1))
                        .toList();
    }

    /** Returns the key in a trial's mapping, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
