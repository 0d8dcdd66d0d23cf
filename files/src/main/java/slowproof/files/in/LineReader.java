package slowproof.files.in;

import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import slowproof.files.log.ColumnMapping;
import slowproof.files.log.ColumnRole;
import slowproof.files.log.Dialect;
import slowproof.files.log.LogReader;
import slowproof.files.log.SpeedRows;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineNotPossibleException;
import slowproof.trial.line.LineProfile;
import slowproof.trial.line.PieceSpec;
import slowproof.trial.line.SpeedLog;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;

/** Reads a line file and the speed log it may name. */
public final class LineReader {
    private static final Set<String> TOP = ordered(
            "line",
            "description",
            "material",
            "piece",
            "pieces",
            "pieces_per_cycle",
            "cut_on",
            "cycle",
            "profile",
            "columns",
            "dialect",
            "trigger_jitter_s",
            "trigger_latency_s",
            "standstill_drift_mm_min",
            "unit_spread",
            "promise");
    private static final Set<String> PIECE = ordered("length_mm", "tolerance_mm", "share");
    private static final Set<String> TOLERANCE = ordered("lower_mm", "upper_mm");
    private static final Set<String> UNIT = ordered("relative_pct", "source");
    private static final Set<String> PROMISE = ordered("coverage_pct", "confidence_pct");
    private static final Set<String> COLUMNS = ordered(ColumnRole.TIME.key(), ColumnRole.SPEED.key());
    private static final int MOST_PIECES = 1_000;

    private enum CutOn {
        SENSOR,
        ELSEWHERE
    }

    private final Path folder;
    private final Problems problems = new Problems();
    private final List<SourceFile> sources = new ArrayList<>();
    private final List<Note> notes = new ArrayList<>();
    private final YamlMap top;

    private LineReader(Path file) {
        Path absolute = file.toAbsolutePath();
        Path parent = absolute.getParent();
        folder = parent == null ? absolute : parent;
        RawFile raw = RawFile.read(file, file.toString());
        sources.add(raw.sourceWithoutFolder());
        top = YamlMap.parse(raw, problems, TOP);
    }

    private static Set<String> ordered(String... keys) {
        return new TreeSet<>(List.of(keys));
    }

    /**
     * Reads a line.
     *
     * @param file the line file; paths in it are relative to its folder
     * @throws BadInputException with every problem found; a cycle that cannot be driven or does not fit its piece is one
     */
    public static LoadedLine read(Path file) {
        return new LineReader(file).read();
    }

    private LoadedLine read() {
        List<PieceSpec> pieces = pieces();
        CutOn cutOn = top.choice("cut_on", CutOn.class);
        Double perCycle = top.positive("pieces_per_cycle");
        if (perCycle != null && (perCycle != Math.rint(perCycle) || perCycle > MOST_PIECES)) {
            problems.add(
                    ProblemCode.OUT_OF_RANGE,
                    top.at("pieces_per_cycle"),
                    top.textOr("pieces_per_cycle", ""),
                    "1, 2, 3 ... " + MOST_PIECES);
        }
        int before = problems.count();
        CycleReader cycle = new CycleReader(top, problems);
        boolean none = cycle.steps().isEmpty() && problems.count() == before;
        if (top.has("cycle") && top.has("profile")) {
            problems.add(ProblemCode.LINE_CYCLE_AND_PROFILE, top.at("cycle"));
        } else if (none && !top.has("profile")) {
            problems.add(ProblemCode.LINE_NO_CYCLE, top.at("cycle"));
        }
        LineProfile log = log();
        Double jitter = top.notNegative("trigger_jitter_s");
        Double latency = top.number("trigger_latency_s");
        Double drift = top.notNegative("standstill_drift_mm_min");
        YamlMap unit = top.map("unit_spread", UNIT);
        YamlMap promise = top.map("promise", PROMISE);
        double coverage = share(promise, "coverage_pct");
        double confidence = share(promise, "confidence_pct");
        if (unit != null) {
            unit.require("relative_pct");
        }
        Double spread = unit == null ? null : unit.notNegative("relative_pct");
        problems.refuseIfAny();
        Line line = new Line(
                top.textOr("line", ""),
                top.text("material"),
                pieces,
                cutOn != CutOn.ELSEWHERE,
                perCycle == null ? 1 : (int) Math.round(perCycle),
                cycle.steps(),
                log,
                jitter == null ? 0 : jitter,
                latency,
                drift,
                spread == null ? null : Double.valueOf(spread / 100),
                unit == null ? "" : unit.textOr("source", ""),
                coverage,
                confidence);
        try {
            line.motions();
        } catch (LineNotPossibleException e) {
            SourcePosition step = cycle.at(e.step());
            problems.add(
                    ProblemCode.valueOf(e.why().name()),
                    step != null ? step : top.at(log == null ? "cycle" : "profile"),
                    e.figures().toArray());
            problems.refuseIfAny();
        }
        noteWhole(line);
        return new LoadedLine(line, sources, top.at("material"), notes);
    }

    /** Says when a log that is close to whole pieces is taken for them. */
    private void noteWhole(Line line) {
        LineProfile log = line.log();
        String name = top.text("profile");
        if (log == null || name == null) {
            return;
        }
        double length = line.pieces().get(0).lengthMm();
        double made = line.profile(line.pieces().get(0)).netTravelMm();
        if (made != log.netTravelMm()) {
            notes.add(Note.of(
                    NoteCode.LINE_LOG_WHOLE,
                    name,
                    Math.round(made / length),
                    Quantity.percent(rounded(100 * (made / log.netTravelMm() - 1), 2))));
        }
    }

    private List<PieceSpec> pieces() {
        List<YamlMap> maps = new ArrayList<>(top.maps("pieces", PIECE));
        YamlMap single = top.map("piece", PIECE);
        if (single != null) {
            maps.add(single);
        }
        if (maps.isEmpty()) {
            problems.add(ProblemCode.KEY_MISSING, top.at("piece"), "piece");
        }
        List<PieceSpec> pieces = new ArrayList<>();
        for (YamlMap map : maps) {
            map.require("length_mm");
            int before = problems.count();
            Double length = map.positive("length_mm");
            Double share = map.positive("share");
            Double lower = null;
            Double upper = null;
            if (map.has("tolerance_mm") && map.isScalar("tolerance_mm")) {
                upper = map.positive("tolerance_mm");
                lower = upper == null ? null : Double.valueOf(-upper);
            } else if (map.has("tolerance_mm")) {
                YamlMap ends = map.map("tolerance_mm", TOLERANCE);
                if (ends != null) {
                    ends.require("lower_mm");
                    ends.require("upper_mm");
                    lower = ends.number("lower_mm");
                    upper = ends.number("upper_mm");
                    if (lower != null && upper != null && !(lower <= 0 && upper >= 0 && lower < upper)) {
                        problems.add(ProblemCode.LINE_TOLERANCE, ends.at(), lower, upper);
                    }
                }
            }
            if (length != null && problems.count() == before) {
                pieces.add(new PieceSpec(length, lower, upper, share == null ? 1 : share));
            }
        }
        return pieces;
    }

    private double share(@Nullable YamlMap map, String key) {
        Double percent = map == null ? null : map.positive(key);
        if (map != null && percent != null && !(percent < 100)) {
            problems.add(ProblemCode.OUT_OF_RANGE, map.at(key), map.textOr(key, ""), "0 to 100 %");
            return 0.95;
        }
        return percent == null ? 0.95 : percent / 100;
    }

    private @Nullable LineProfile log() {
        String name = top.text("profile");
        if (name == null) {
            return null;
        }
        LogKeys keys = new LogKeys(problems);
        ColumnMapping columns = keys.columns(top.map("columns", COLUMNS));
        Dialect dialect = keys.dialect(top.map("dialect", LogKeys.DIALECT));
        try {
            SpeedRows rows = LogReader.readSpeed(folder.resolve(name), name, columns, dialect);
            sources.add(new SourceFile(name, rows.sha256()));
            notes.addAll(rows.notes());
            return profile(name, rows);
        } catch (BadInputException e) {
            problems.addAll(e.problems());
            return null;
        }
    }

    private @Nullable LineProfile profile(String name, SpeedRows rows) {
        double[] times = rows.timeS();
        if (times.length < 3) {
            problems.add(ProblemCode.LOG_TOO_FEW_ROWS, SourcePosition.ofFile(name), times.length);
            return null;
        }
        try {
            SpeedLog.Smoothed log = SpeedLog.smoothed(times, rows.speedMmPerS());
            if (log.windowS() > 0) {
                notes.add(Note.of(
                        NoteCode.LINE_LOG_SMOOTHED,
                        name,
                        Quantity.mmPerS(rounded(log.noiseMmPerS(), 2)),
                        new Quantity(rounded(log.windowS(), 2), Unit.S),
                        Quantity.mmPerS(rounded(log.restBelowMmPerS(), 2))));
            }
            if (log.windowS() > 0 || log.restBelowMmPerS() > 0) {
                notes.add(Note.of(
                        NoteCode.LINE_LOG_DISTANCE,
                        name,
                        Quantity.mm(rounded(log.profile().netTravelMm(), 5)),
                        Quantity.percent(rounded(100 * (log.factor() - 1), 2))));
            }
            return log.profile();
        } catch (LineNotPossibleException e) {
            problems.add(ProblemCode.valueOf(e.why().name()), SourcePosition.ofFile(name));
            return null;
        }
    }

    /** A remark needs few digits. */
    private static double rounded(double value, int digits) {
        return BigDecimal.valueOf(value).round(new MathContext(digits)).doubleValue();
    }
}
