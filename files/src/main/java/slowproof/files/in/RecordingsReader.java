package slowproof.files.in;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import slowproof.files.log.ColumnMapping;
import slowproof.files.log.ColumnRole;
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
            "name",
            "setup",
            "speed_mm_s",
            "acceleration_mm_s2",
            "file",
            "sensor_file",
            "reference_file",
            "reference_per_pass_mm",
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

    /** A register beyond this does not wrap in a recording. */
    private static final int WIDEST_REGISTER = 52;

    private final TrialFiles files;
    private final Sensor sensor;
    private final Quadrature.Evaluation evaluation;
    private final Reference reference;
    private final Problems problems;
    private final LogKeys keys;
    private final List<SourceFile> sources;
    private final List<Note> notes;
    private final List<RecordingRead> read = new ArrayList<>();
    private final List<RecordedPass> passes = new ArrayList<>();
    private final Map<String, Integer> names = new HashMap<>();
    private final List<@Nullable String> kept = new ArrayList<>();

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
        this.keys = new LogKeys(problems);
        this.sources = sources;
        this.notes = notes;
    }

    private static Set<String> roles() {
        Set<String> roles = new TreeSet<>();
        for (ColumnRole role : ColumnRole.values()) {
            roles.add(role.key());
        }
        roles.remove(ColumnRole.SPEED.key());
        return roles;
    }

    /** Returns how each recording was understood. */
    List<RecordingRead> read() {
        return List.copyOf(read);
    }

    /** Returns the names under which the passes of large recordings are kept; none when one of them is not kept. */
    List<String> kept() {
        List<String> all = new ArrayList<>();
        for (String name : kept) {
            if (name == null) {
                return List.of();
            }
            all.add(name);
        }
        return all;
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
        ColumnMapping columns = keys.columns(top.map("columns", COLUMNS));
        Dialect dialect = keys.dialect(top.map("dialect", LogKeys.DIALECT));
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
        YamlMap ownDialect = recording.map("dialect", LogKeys.DIALECT);
        ColumnMapping columns = ownColumns == null ? usualColumns : keys.columns(ownColumns);
        Dialect dialect = ownDialect == null ? usualDialect : keys.dialect(ownDialect);
        String file = recording.text(twoClocks ? "sensor_file" : "file");
        String other = twoClocks ? recording.text("reference_file") : null;
        if (file == null || (twoClocks && other == null)) {
            return;
        }
        PassSettings usual = PassSettings.DEFAULT;
        int before = problems.count();
        List<Double> typed = recording.numbers("reference_per_pass_mm");
        if (typed != null && other != null) {
            problems.add(ProblemCode.REFERENCE_TWICE, recording.at("reference_per_pass_mm"), other);
        }
        if (problems.count() > before) {
            return;
        }
        LogRequest log = request(
                recording,
                other == null ? "" : "sensor_",
                file,
                other == null && typed == null ? LogPart.BOTH : LogPart.SENSOR,
                columns,
                dialect);
        RecordingCutter.Wanted wanted = new RecordingCutter.Wanted(
                unique(recording.textOr("name", base(file))),
                log,
                other == null ? null : request(recording, "reference_", other, LogPart.REFERENCE, columns, dialect),
                typed == null ? null : new TypedReferences(typed, recording.at("reference_per_pass_mm")),
                recording.flag("reversed"),
                new PassSettings(dwell == null ? usual.dwellS() : dwell, still, null, usual.settleS()),
                recording.at(twoClocks ? "sensor_file" : "file"));
        RecordingCutter.Result result = RecordingCutter.cut(files, wanted);
        if (RecordingCutter.isLarge(files, wanted)) {
            kept.add(result.keptAs());
        }
        Cutting cutting = result.cutting();
        sources.addAll(cutting.sources());
        notes.addAll(cutting.notes());
        read.add(new RecordingRead(
                file, other, material, cutting.readAs(), cutting.clock(), cutting.reason(), cutting.cut()));
        for (RecordedPass pass : cutting.passes()) {
            passes.add(pass.of(material, recording.textOr("setup", ""), speed, acceleration));
        }
    }

    private LogRequest request(
            YamlMap recording, String prefix, String file, LogPart part, ColumnMapping columns, Dialect dialect) {
        YamlMap ownColumns = prefix.isEmpty() ? null : recording.map(prefix + "columns", COLUMNS);
        YamlMap ownDialect = prefix.isEmpty() ? null : recording.map(prefix + "dialect", LogKeys.DIALECT);
        return new LogRequest(
                file,
                part,
                ownColumns == null ? columns : keys.columns(ownColumns),
                ownDialect == null ? dialect : keys.dialect(ownDialect),
                scale(),
                reference.circumferenceMm(),
                BreakRule.DEFAULT);
    }

    /** A recording that the trial does not name bears the name of its file without folder and ending. */
    private static String base(String file) {
        Path last = Path.of(file).getFileName();
        String name = last == null ? file : last.toString();
        int dot = name.indexOf('.');
        return dot > 0 ? name.substring(0, dot) : name;
    }

    /** Passes are named by the recording; a name that occurs again is numbered. */
    private String unique(String name) {
        int times = names.merge(name, 1, Integer::sum);
        return times == 1 ? name : name + "-" + times;
    }

    private SensorScale scale() {
        Integer bits = sensor.counterBits();
        // differences of a register come out the same whether its numbers carry a sign or not
        CounterRegister register = bits == null || bits > WIDEST_REGISTER ? null : new CounterRegister(bits, false);
        return new SensorScale(sensor.distancePerCountMm(), register, null, evaluation);
    }
}
