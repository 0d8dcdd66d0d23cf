package slowproof.archive.sheet;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Facts about a trial that can be noted at any time. The key of each label in the message bundles is {@code fact.} and {@link #key()}. */
public enum FactName {
    TITLE(Kind.TEXT),
    /** Surface of the series that name none. */
    MATERIAL(Kind.TEXT),
    /** Acceleration of the series that name none, mm/s2. */
    ACCELERATION(Kind.POSITIVE, "mm/s²"),
    LIMIT_PERCENT(Kind.NOT_NEGATIVE, "%"),
    LIMIT_LENGTH(Kind.LENGTH_NOT_NEGATIVE),
    STATED_PERCENT(Kind.POSITIVE, "%"),
    STATED_FROM(Kind.SPEED),
    REFERENCE_UNCERTAINTY(Kind.LENGTH_NOT_NEGATIVE),
    REFERENCE_PPM(Kind.NOT_NEGATIVE, "ppm"),
    COVERAGE_FACTOR(Kind.POSITIVE),
    TAPE_CLASS(List.of("", "I", "II", "III")),
    REFERENCE_KIND(List.of("axis", "tape", "roll", "other")),
    REFERENCE_NAME(Kind.TEXT),
    CERTIFICATE_NUMBER(Kind.TEXT),
    CERTIFICATE_ISSUED_BY(Kind.TEXT),
    /** As it stands on the certificate. */
    CERTIFICATE_DATE(Kind.TEXT),
    CERTIFICATE_TRACEABLE_TO(Kind.TEXT),
    SENSOR_NAME(Kind.TEXT),
    SENSOR_SERIAL(Kind.TEXT),
    RESOLUTION(Kind.LENGTH_POSITIVE),
    DISTANCE_PER_COUNT(Kind.LENGTH_POSITIVE),
    SETUP_NAME(Kind.TEXT),
    FIRMWARE(Kind.TEXT),
    PARAMETERS(Kind.TEXT),
    WORKING_DISTANCE(Kind.LENGTH_POSITIVE),
    WINDOW(Kind.TEXT),
    MISALIGNMENT(Kind.NOT_NEGATIVE, "°"),
    ABBE_OFFSET(Kind.LENGTH_NOT_NEGATIVE),
    ABBE_ANGLE(Kind.NOT_NEGATIVE, "°"),
    TEMPERATURE(Kind.NUMBER, "°C"),
    TEMPERATURE_HALF_WIDTH(Kind.NOT_NEGATIVE, "K"),
    EXPANSION(Kind.NOT_NEGATIVE, "ppm/K"),
    WHO(Kind.TEXT),
    NOTES(Kind.TEXT),
    DECISION_RULE(List.of("probability", "expanded", "simple")),
    READING_MODE(List.of("cumulative", "zeroed")),
    LENGTH_UNIT(List.of("mm", "m", "inch")),
    SPEED_UNIT(List.of("mm_per_s", "m_per_min", "ft_per_min")),
    DECIMAL_MARK(List.of("dot", "comma"));

    /** What a fact is. */
    public enum Kind {
        TEXT,
        CHOICE,
        NUMBER,
        NOT_NEGATIVE,
        POSITIVE,
        LENGTH_NOT_NEGATIVE,
        LENGTH_POSITIVE,
        SPEED
    }

    private final Kind kind;
    private final String unit;
    private final List<String> choices;

    FactName(Kind kind) {
        this(kind, "");
    }

    FactName(Kind kind, String unit) {
        this.kind = kind;
        this.unit = unit;
        this.choices = List.of();
    }

    FactName(List<String> choices) {
        this.kind = Kind.CHOICE;
        this.unit = "";
        this.choices = choices;
    }

    /** Returns what it is. */
    public Kind kind() {
        return kind;
    }

    /** Returns the fixed unit of a number, empty when it has none or the person chooses. */
    public String unit() {
        return unit;
    }

    /** Returns the words to choose from, the first being what holds when nothing was chosen; empty for other kinds. */
    public List<String> choices() {
        return choices;
    }

    /** Returns the name written in the archive, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Returns the fact of a written name. */
    public static Optional<FactName> of(String key) {
        for (FactName name : values()) {
            if (name.key().equals(key)) {
                return Optional.of(name);
            }
        }
        return Optional.empty();
    }
}
