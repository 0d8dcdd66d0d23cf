package slowproof.files.in;

import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.UnsupportedCharsetException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import slowproof.files.log.ColumnMapping;
import slowproof.files.log.ColumnRole;
import slowproof.files.log.ColumnSource;
import slowproof.files.log.Dialect;
import slowproof.files.log.LogPart;
import slowproof.files.log.LogRequest;
import slowproof.trial.RecordedPass;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.counts.CounterRegister;
import slowproof.trial.counts.Quadrature;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.note.Note;
import slowproof.trial.recording.BreakRule;
import slowproof.trial.recording.PassSettings;
import slowproof.trial.recording.SensorScale;

/** Reads the recordings that a trial names and finds their passes. */
final class RecordingsReader {
    static final Set<String> RECORDING = new TreeSet<>(List.of(
            "material",
            "setup",
            "speed_mm_s",
            "acceleration_mm_s2",
            "file",
            "sensor_file",
            "reference_file",
            "columns",
            "dialect",
            "sensor_columns",
            "sensor_dialect",
            "reference_columns",
            "reference_dialect",
            "reversed",
            "dwell_s",
            "standstill_mm_s"));
    static final Set<String> COLUMNS = roles();
    static final Set<String> DIALECT =
            new TreeSet<>(List.of("separator", "decimal", "header", "header_rows", "encoding", "comment"));
    private static final Set<String> COLUMN = new TreeSet<>(List.of("column", "unit", "circumference_mm", "threshold"));

    /** A register beyond this does not wrap in a recording. */
    private static final int WIDEST_REGISTER = 52;

    private final TrialFiles files;
    private final Sensor sensor;
    private final Quadrature.Evaluation evaluation;
    private final Reference reference;
    private final Problems problems;
    private final List<SourceFile> sources;
    private final List<Note> notes;
    private final List<RecordingRead> read = new ArrayList<>();
    private final List<RecordedPass> passes = new ArrayList<>();
    private final Map<String, Integer> names = new HashMap<>();

    RecordingsReader(
            TrialFiles files,
            Sensor sensor,
            Quadrature.Evaluation evaluation,
            Reference reference,
            Problems problems,
            List<SourceFile> sources,
            List<Note> notes) {
        this.files = files;
        this.sensor = sensor;
        this.evaluation = evaluation;
        this.reference = reference;
        this.problems = problems;
        this.sources = sources;
        this.notes = notes;
    }

    private static Set<String> roles() {
        Set<String> roles = new TreeSet<>();
        for (ColumnRole role : ColumnRole.values()) {
            roles.add(role.key());
        }
        return roles;
    }

    /** Returns how each recording was understood. */
    List<RecordingRead> read() {
        return List.copyOf(read);
    }

    /** Returns the passes of all recordings, in file order. */
    List<RecordedPass> passes() {
        return List.copyOf(passes);
    }

    /**
     * Reads the recordings; what is wrong with one does not keep the others from being looked at.
     *
     * @param top trial file with the key {@code recordings} and, for all of them, {@code columns} and {@code dialect}
     */
    void readAll(YamlMap top) {
        ColumnMapping columns = columns(top.map("columns", COLUMNS));
        Dialect dialect = dialect(top.map("dialect", DIALECT));
        for (YamlMap recording : top.maps("recordings", RECORDING)) {
            try {
                take(recording, columns, dialect);
            } catch (BadInputException e) {
                problems.addAll(e.problems());
            }
        }
    }

    private void take(YamlMap recording, ColumnMapping usualColumns, Dialect usualDialect) {
        recording.require("material");
        boolean twoClocks = recording.has("sensor_file") || recording.has("reference_file");
        recording.require(twoClocks ? "sensor_file" : "file");
        if (twoClocks) {
            recording.require("reference_file");
        }
        String material = recording.textOr("material", "");
        Double speed = recording.positive("speed_mm_s");
        Double acceleration = recording.positive("acceleration_mm_s2");
        Double dwell = recording.positive("dwell_s");
        Double still = recording.positive("standstill_mm_s");
        YamlMap ownColumns = recording.map("columns", COLUMNS);
        YamlMap ownDialect = recording.map("dialect", DIALECT);
        ColumnMapping columns = ownColumns == null ? usualColumns : columns(ownColumns);
        Dialect dialect = ownDialect == null ? usualDialect : dialect(ownDialect);
        String file = recording.text(twoClocks ? "sensor_file" : "file");
        String other = twoClocks ? recording.text("reference_file") : null;
        if (file == null || (twoClocks && other == null)) {
            return;
        }
        PassSettings usual = PassSettings.DEFAULT;
        LogRequest log = request(
                recording,
                other == null ? "" : "sensor_",
                file,
                other == null ? LogPart.BOTH : LogPart.SENSOR,
                columns,
                dialect);
        RecordingCutter.Wanted wanted = new RecordingCutter.Wanted(
                unique(file),
                log,
                other == null ? null : request(recording, "reference_", other, LogPart.REFERENCE, columns, dialect),
                recording.flag("reversed"),
                new PassSettings(dwell == null ? usual.dwellS() : dwell, still, null, usual.settleS()),
                recording.at(twoClocks ? "sensor_file" : "file"));
        Cutting cutting = RecordingCutter.cut(files, wanted);
        sources.addAll(cutting.sources());
        notes.addAll(cutting.notes());
        read.add(new RecordingRead(file, material, cutting.readAs(), cutting.clock(), cutting.reason(), cutting.cut()));
        for (RecordedPass pass : cutting.passes()) {
            passes.add(pass.of(material, recording.textOr("setup", ""), speed, acceleration));
        }
    }

    private LogRequest request(
            YamlMap recording, String prefix, String file, LogPart part, ColumnMapping columns, Dialect dialect) {
        YamlMap ownColumns = prefix.isEmpty() ? null : recording.map(prefix + "columns", COLUMNS);
        YamlMap ownDialect = prefix.isEmpty() ? null : recording.map(prefix + "dialect", DIALECT);
        return new LogRequest(
                file,
                part,
                ownColumns == null ? columns : columns(ownColumns),
                ownDialect == null ? dialect : dialect(ownDialect),
                scale(),
                reference.circumferenceMm(),
                BreakRule.DEFAULT);
    }

    /** Passes are named by the recording: its file without folder and ending, numbered when it occurs again. */
    private String unique(String file) {
        Path last = Path.of(file).getFileName();
        String name = last == null ? file : last.toString();
        int dot = name.indexOf('.');
        String bare = dot > 0 ? name.substring(0, dot) : name;
        int times = names.merge(bare, 1, Integer::sum);
        return times == 1 ? bare : bare + "-" + times;
    }

    private SensorScale scale() {
        Integer bits = sensor.counterBits();
        // differences of a register come out the same whether its numbers carry a sign or not
        CounterRegister register = bits == null || bits > WIDEST_REGISTER ? null : new CounterRegister(bits, false);
        return new SensorScale(sensor.distancePerCountMm(), register, null, evaluation);
    }

    private ColumnMapping columns(@Nullable YamlMap map) {
        if (map == null) {
            return ColumnMapping.RECOGNISED;
        }
        Map<ColumnRole, ColumnSource> columns = new EnumMap<>(ColumnRole.class);
        for (ColumnRole role : ColumnRole.values()) {
            if (map.has(role.key())) {
                ColumnSource source = map.isScalar(role.key())
                        ? named(map.textOr(role.key(), ""), null, null, null)
                        : column(map.map(role.key(), COLUMN));
                if (source != null) {
                    columns.put(role, source);
                }
            }
        }
        return new ColumnMapping(columns);
    }

    private @Nullable ColumnSource column(@Nullable YamlMap map) {
        if (map == null) {
            return null;
        }
        map.require("column");
        String column = map.text("column");
        return column == null
                ? null
                : named(column, map.text("unit"), map.positive("circumference_mm"), map.number("threshold"));
    }

    private static ColumnSource named(
            String column, @Nullable String unit, @Nullable Double circumference, @Nullable Double threshold) {
        boolean number = column.length() < 6 && column.matches("[1-9][0-9]*");
        return new ColumnSource(
                number ? null : column, number ? Integer.valueOf(column) : null, unit, circumference, threshold);
    }

    private Dialect dialect(@Nullable YamlMap map) {
        if (map == null) {
            return Dialect.RECOGNISED;
        }
        Character decimal = sign(map, "decimal");
        Character separator = sign(map, "separator");
        if (decimal != null && decimal != '.' && decimal != ',') {
            problems.add(ProblemCode.UNKNOWN_CHOICE, map.at("decimal"), map.textOr("decimal", ""), ". ,");
            decimal = null;
        }
        if (decimal != null && decimal.equals(separator)) {
            problems.add(ProblemCode.UNKNOWN_CHOICE, map.at("separator"), map.textOr("separator", ""), "; \\t");
            separator = null;
        }
        Double rows = map.notNegative("header_rows");
        String header = map.text("header");
        Integer headerRows = rows == null ? null : Integer.valueOf(rows.intValue());
        if (header != null && headerRows == null) {
            if (header.equals("false")) {
                headerRows = 0;
            } else if (!header.equals("true")) {
                problems.add(ProblemCode.UNKNOWN_CHOICE, map.at("header"), header, "true, false");
            }
        }
        return new Dialect(separator, decimal, headerRows, encoding(map), sign(map, "comment"));
    }

    private @Nullable Character sign(YamlMap map, String key) {
        String text = map.rawText(key);
        if (text == null) {
            return null;
        }
        String meant = text.equals("tab") || text.equals("\\t") ? "\t" : text;
        if (meant.length() != 1) {
            problems.add(ProblemCode.UNKNOWN_CHOICE, map.at(key), text, ", ; tab");
            return null;
        }
        return meant.charAt(0);
    }

    private @Nullable Charset encoding(YamlMap map) {
        String name = map.text("encoding");
        if (name == null) {
            return null;
        }
        try {
            return Charset.forName(name);
        } catch (IllegalCharsetNameException | UnsupportedCharsetException e) {
            problems.add(ProblemCode.UNKNOWN_CHOICE, map.at("encoding"), name, "UTF-8, UTF-16, windows-1252");
            return null;
        }
    }
}
