package slowproof.app.web;

import java.nio.charset.Charset;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import slowproof.archive.typed.DecimalMark;
import slowproof.archive.typed.NotUnderstoodException;
import slowproof.archive.typed.NotUnderstoodException.Why;
import slowproof.archive.typed.Typed;
import slowproof.files.log.ColumnMapping;
import slowproof.files.log.ColumnRole;
import slowproof.files.log.ColumnSource;
import slowproof.files.log.Dialect;
import slowproof.files.log.LogPart;
import slowproof.files.log.LogRequest;
import slowproof.trial.counts.CounterRegister;
import slowproof.trial.counts.Quadrature;
import slowproof.trial.recording.BreakRule;
import slowproof.trial.recording.SensorScale;
import slowproof.wording.Wording;

/**
 * What stands in the fields about logs that were sent: how each is written, which column is what, which belong
 * together, and how the sensor counts. What was not chosen is recognised. Immutable.
 */
final class UploadForm {
    /** Signs between cells by the word of the choice. */
    static final Map<String, Character> SEPARATORS = separators();

    /** Encodings to choose from. */
    static final List<String> ENCODINGS = List.of("UTF-8", "UTF-16LE", "UTF-16BE", "windows-1252");

    /** Ways to count edges. */
    static final List<String> EVALUATIONS = List.of("x4", "x2", "x1");

    /** Widths of a counter register in bits. */
    static final List<String> BITS = List.of("16", "24", "32");

    /** Choice of what a log belongs to: it holds the sensor, and the reference of each pass is typed. */
    static final String ALONE = "alone";

    private static final Pattern BETWEEN_LENGTHS = Pattern.compile(",?(\\s*;\\s*|\\s+(?=[-+\u2212]?[0-9]))");

    /** Columns beyond this are shown and never asked about. */
    static final int MOST_COLUMNS = 60;

    private final List<UploadStore.Log> logs;
    private final Map<String, String> fields;
    private final boolean german;
    private final List<Typo> typos = new ArrayList<>();

    /** A field whose text means nothing. */
    private record Typo(String field, NotUnderstoodException why) {}

    UploadForm(List<UploadStore.Log> logs, Map<String, String> fields, boolean german) {
        this.logs = List.copyOf(logs);
        this.fields = Map.copyOf(fields);
        this.german = german;
        check();
    }

    private static Map<String, Character> separators() {
        Map<String, Character> signs = new LinkedHashMap<>();
        signs.put("comma", ',');
        signs.put("semicolon", ';');
        signs.put("tab", '\t');
        signs.put("space", ' ');
        signs.put("stroke", '|');
        return signs;
    }

    List<UploadStore.Log> logs() {
        return logs;
    }

    /** Returns the name of a field about one log. */
    static String of(UploadStore.Log log, String what) {
        return "f" + log.number() + "_" + what;
    }

    /** Returns the name of the field that says what a column is; columns count from 1. */
    static String column(UploadStore.Log log, int column) {
        return of(log, "c" + column);
    }

    /** Returns what stands in a field. */
    String text(String field) {
        return fields.getOrDefault(field, "").strip();
    }

    /** Returns a text under the habits of the reader's language; a unit may stand behind a number. */
    Typed typed(String field) {
        Typed usual = Typed.NOTHING;
        return new Typed(
                text(field), german ? DecimalMark.COMMA : DecimalMark.DOT, usual.lengthUnit(), usual.speedUnit());
    }

    /** What a number in a field means. */
    private enum Meaning {
        LENGTH,
        SECONDS,
        SPEED,
        ACCELERATION,
        LEVEL,
        ROWS;

        double of(Typed typed) throws NotUnderstoodException {
            double value = switch (this) {
                case LENGTH -> typed.length().mm();
                case SECONDS -> typed.number("s").doubleValue();
                case SPEED -> typed.speedMmPerS();
                case ACCELERATION -> typed.number("mm/s\u00b2").doubleValue();
                case LEVEL, ROWS -> typed.number("").doubleValue();
            };
            if (this == ROWS && !(value >= 0 && value == Math.rint(value))) {
                throw new NotUnderstoodException(Why.NEGATIVE, typed.text());
            }
            if (this != LEVEL && this != ROWS && !(value > 0)) {
                throw new NotUnderstoodException(Why.NOT_POSITIVE, typed.text());
            }
            return value;
        }
    }

    /** Reads every number once, so that all that is wrong is told together. */
    private void check() {
        for (UploadStore.Log log : logs) {
            check(of(log, "circumference"), Meaning.LENGTH);
            check(of(log, "threshold"), Meaning.LEVEL);
            check(of(log, "header_rows"), Meaning.ROWS);
            check(of(log, "speed"), Meaning.SPEED);
            check(of(log, "acceleration"), Meaning.ACCELERATION);
            try {
                if (alone(log)) {
                    lengths(log);
                }
            } catch (NotUnderstoodException e) {
                typos.add(new Typo(of(log, "references"), e));
            }
        }
        check("count_mm", Meaning.LENGTH);
        check("dwell", Meaning.SECONDS);
        check("still", Meaning.SPEED);
    }

    private void check(String field, Meaning meaning) {
        try {
            if (!text(field).isEmpty()) {
                meaning.of(typed(field));
            }
        } catch (NotUnderstoodException e) {
            typos.add(new Typo(field, e));
        }
    }

    /** Returns the number in a field; null when it is empty or means nothing, which {@link #problems} tells. */
    private @Nullable Double value(String field, Meaning meaning) {
        try {
            return text(field).isEmpty() ? null : Double.valueOf(meaning.of(typed(field)));
        } catch (NotUnderstoodException e) {
            return null;
        }
    }

    /** Returns what is wrong with the fields themselves. */
    List<Problem> problems(Wording wording) {
        List<Problem> problems = new ArrayList<>();
        for (Typo typo : typos) {
            problems.add(Problem.of(typo.field(), typo.why(), wording));
        }
        for (UploadStore.Log log : logs) {
            Set<String> roles = new HashSet<>();
            for (int column = 1; column <= MOST_COLUMNS; column++) {
                String role = text(column(log, column));
                if (!role.isEmpty() && !roles.add(role)) {
                    problems.add(new Problem(
                            column(log, column), wording.text("upload.twice", wording.text("upload.role." + role))));
                }
            }
            String part = text(of(log, "part"));
            if (partner(log) == null && !part.isEmpty() && !part.equals(ALONE)) {
                problems.add(new Problem(of(log, "part"), wording.text("upload.no_partner", log.name())));
            }
        }
        return problems;
    }

    /** Returns the circumference of the roll in mm, or null. */
    @Nullable
    Double circumference(UploadStore.Log log) {
        return value(of(log, "circumference"), Meaning.LENGTH);
    }

    /** Returns the level below which a signal counts as lost, or null. */
    @Nullable
    Double threshold(UploadStore.Log log) {
        return value(of(log, "threshold"), Meaning.LEVEL);
    }

    /** Returns the same form without what is asked about passes, which no reading depends on. */
    UploadForm withoutNames() {
        Map<String, String> some = new HashMap<>(fields);
        for (UploadStore.Log log : logs) {
            List.of("material", "speed", "acceleration").forEach(name -> some.remove(of(log, name)));
        }
        some.remove("fact_title");
        return new UploadForm(logs, some, german);
    }

    /** Returns the keys of the questions that were answered with yes. */
    List<String> confirmed() {
        return fields.keySet().stream()
                .filter(field -> field.startsWith("confirm_") && !text(field).isEmpty())
                .map(field -> field.substring("confirm_".length()))
                .sorted()
                .toList();
    }

    private @Nullable Integer headerRows(UploadStore.Log log) {
        Double rows = value(of(log, "header_rows"), Meaning.ROWS);
        return rows == null ? null : Integer.valueOf((int) Math.min(rows, 1000));
    }

    /** Returns the programmed speed of a recording in mm/s, or null. */
    @Nullable
    Double speedMmPerS(UploadStore.Log log) {
        return value(of(log, "speed"), Meaning.SPEED);
    }

    /** Returns the programmed acceleration of a recording in mm/s2, or null. */
    @Nullable
    Double accelerationMmPerS2(UploadStore.Log log) {
        return value(of(log, "acceleration"), Meaning.ACCELERATION);
    }

    /** Returns the distance per count in mm, or null. */
    @Nullable
    Double countMm() {
        return value("count_mm", Meaning.LENGTH);
    }

    /** Returns the shortest standstill in s, or null for the usual one. */
    @Nullable
    Double dwellS() {
        return value("dwell", Meaning.SECONDS);
    }

    /** Returns the speed below which the reference rests in mm/s, or null to take it from the noise. */
    @Nullable
    Double stillMmPerS() {
        return value("still", Meaning.SPEED);
    }

    /** Returns the width of the counter in bits, or null when it never wraps. */
    @Nullable
    Integer bits() {
        return BITS.contains(text("bits")) ? Integer.valueOf(text("bits")) : null;
    }

    /** Returns the word for the edges that are counted. */
    String evaluation() {
        return EVALUATIONS.contains(text("evaluation")) ? text("evaluation") : EVALUATIONS.get(0);
    }

    /** Returns true when the sensor counts against the reference. */
    boolean reversed() {
        return !text("reversed").isEmpty();
    }

    /** Returns the log whose reference this one is, or null when it is a recording of its own. */
    UploadStore.@Nullable Log partner(UploadStore.Log log) {
        for (UploadStore.Log other : logs) {
            boolean meant = text(of(log, "part")).equals("of" + other.number());
            // a chain of logs would have no sensor at its end
            if (meant && !other.equals(log) && text(of(other, "part")).isEmpty()) {
                return other;
            }
        }
        return null;
    }

    /** Returns the log that is the reference of this one, or null when it has both. */
    UploadStore.@Nullable Log reference(UploadStore.Log log) {
        return logs.stream()
                .filter(other -> Objects.equals(partner(other), log))
                .findFirst()
                .orElse(null);
    }

    /** Returns true when a log holds the sensor and no reference. */
    boolean alone(UploadStore.Log log) {
        return text(of(log, "part")).equals(ALONE);
    }

    /** Returns what the reference moved in each pass in mm, as far as it can be understood; null unless the log holds the sensor alone. */
    @Nullable
    List<Double> referencesMm(UploadStore.Log log) {
        try {
            return alone(log) ? lengths(log) : null;
        } catch (NotUnderstoodException e) {
            return List.of();
        }
    }

    /** Reads lengths that blanks, line ends or semicolons keep apart; a unit may stand behind a blank. */
    private List<Double> lengths(UploadStore.Log log) throws NotUnderstoodException {
        List<Double> lengths = new ArrayList<>();
        for (String one : BETWEEN_LENGTHS.split(text(of(log, "references")))) {
            if (!one.isEmpty()) {
                Typed usual = Typed.NOTHING;
                DecimalMark mark = german ? DecimalMark.COMMA : DecimalMark.DOT;
                double mm = new Typed(one, mark, usual.lengthUnit(), usual.speedUnit())
                        .length()
                        .mm();
                if (mm == 0) {
                    throw new NotUnderstoodException(Why.NOT_POSITIVE, one);
                }
                lengths.add(mm);
            }
        }
        return lengths;
    }

    /** Returns the logs that are a recording, alone or with another one as reference. */
    List<UploadStore.Log> recordings() {
        return logs.stream().filter(log -> partner(log) == null).toList();
    }

    private LogPart part(UploadStore.Log log) {
        if (partner(log) != null) {
            return LogPart.REFERENCE;
        }
        return reference(log) == null && !alone(log) ? LogPart.BOTH : LogPart.SENSOR;
    }

    /** Returns how a log is written, as far as it was chosen. */
    Dialect dialect(UploadStore.Log log) {
        Character separator = SEPARATORS.get(text(of(log, "separator")));
        Character decimal = switch (text(of(log, "decimal"))) {
            case "point" -> Character.valueOf('.');
            case "comma" -> Character.valueOf(',');
            default -> null;
        };
        String encoding = text(of(log, "encoding"));
        return new Dialect(
                separator,
                decimal,
                headerRows(log),
                ENCODINGS.contains(encoding) ? Charset.forName(encoding) : null,
                null);
    }

    /** Returns which column is what; where nothing was chosen, everything is recognised. */
    ColumnMapping mapping(UploadStore.Log log) {
        Map<ColumnRole, ColumnSource> columns = new EnumMap<>(ColumnRole.class);
        for (int column = 1; column <= MOST_COLUMNS; column++) {
            ColumnRole role = role(text(column(log, column)));
            if (role != null && !columns.containsKey(role)) {
                String unit = text(column(log, column) + "_unit");
                columns.put(
                        role,
                        new ColumnSource(
                                null,
                                column,
                                role.units().contains(unit) ? unit : null,
                                role == ColumnRole.REFERENCE ? circumference(log) : null,
                                role == ColumnRole.LEVEL ? threshold(log) : null));
            }
        }
        return new ColumnMapping(columns);
    }

    static @Nullable ColumnRole role(String key) {
        for (ColumnRole role : ColumnRole.values()) {
            if (role.key().equals(key)) {
                return role;
            }
        }
        return null;
    }

    /** Returns what is wanted of a log. */
    LogRequest request(UploadStore.Log log) {
        return new LogRequest(
                log.name(), part(log), mapping(log), dialect(log), scale(), circumference(log), BreakRule.DEFAULT);
    }

    private SensorScale scale() {
        Integer bits = bits();
        return new SensorScale(
                countMm(),
                bits == null ? null : new CounterRegister(bits, false),
                null,
                Quadrature.Evaluation.valueOf(evaluation().toUpperCase(Locale.ROOT)));
    }
}
