package slowproof.files.in;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import slowproof.files.cache.CacheFolder;
import slowproof.files.log.ReadingProgress;
import slowproof.metrology.conformity.DecisionRule;
import slowproof.trial.Certificate;
import slowproof.trial.Exclusion;
import slowproof.trial.Limit;
import slowproof.trial.LimitPreset;
import slowproof.trial.Piece;
import slowproof.trial.ReadingMode;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.Series;
import slowproof.trial.Setup;
import slowproof.trial.StatedAccuracy;
import slowproof.trial.TapeClass;
import slowproof.trial.Trial;
import slowproof.trial.counts.Quadrature;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.slips.Slips;

/** Reads a trial file and the tables it names. Nothing of the sources is ever changed. */
public final class TrialReader {
    private static final Set<String> TOP = ordered(
            "trial",
            "description",
            "sensor",
            "reference",
            "limit",
            "stated",
            "setup",
            "decision_rule",
            "readings",
            "recordings",
            "pieces",
            "reading_mode",
            "exclude",
            "confirm",
            "columns",
            "dialect");
    private static final Set<String> SENSOR =
            ordered("name", "serial", "distance_per_count_mm", "evaluation", "counter_bits", "reading_resolution_mm");
    private static final Set<String> REFERENCE = ordered(
            "name",
            "kind",
            "expanded_uncertainty_mm",
            "expanded_uncertainty_ppm",
            "coverage_factor",
            "class",
            "circumference_mm",
            "certificate");
    private static final Set<String> CERTIFICATE = ordered("number", "issued_by", "date", "traceable_to");
    private static final Set<String> LIMIT =
            ordered("relative_pct", "absolute_mm", "at_length_mm", "preset", "smallest_length_mm");
    private static final Set<String> STATED = ordered("relative_pct", "from_speed_mm_s");
    private static final Set<String> SETUP = ordered(
            "name",
            "firmware",
            "working_distance_mm",
            "misalignment_deg",
            "abbe_offset_mm",
            "abbe_angle_deg",
            "reference_temperature_c",
            "expansion_ppm_per_k",
            "latency_s",
            "parameters",
            "window");
    private static final Set<String> TEMPERATURE = ordered("mean", "half_width");
    private static final Set<String> EXCLUDE = ordered("pass", "reason");

    private final TrialFiles files;
    private final String unnamed;
    private final Problems problems = new Problems();
    private final List<SourceFile> sources = new ArrayList<>();
    private final List<Note> notes = new ArrayList<>();
    private final YamlMap top;
    private final List<String> kept = new ArrayList<>();

    private TrialReader(RawFile raw, TrialFiles files, String unnamed) {
        this.files = files;
        this.unnamed = unnamed;
        sources.add(raw.sourceWithoutFolder());
        this.top = YamlMap.parse(raw, problems, TOP);
    }

    private static Set<String> ordered(String... keys) {
        return new TreeSet<>(List.of(keys));
    }

    /**
     * Reads a trial.
     *
     * @param file the trial file; paths in it are relative to its folder
     * @throws BadInputException with every problem found, or with the questions that a likely slip of typing
     *     raises and that the trial does not confirm
     */
    public static LoadedTrial read(Path file) {
        return read(file, CacheFolder.NONE, true, ReadingProgress.NONE);
    }

    /**
     * Reads a trial; what is made of large recordings is kept in a cache, and taken from there when nothing changed.
     *
     * @param file the trial file; paths in it are relative to its folder
     * @param cache where results are kept
     * @param traced false for those who do not look at recordings: their traces are left out then
     * @param progress who learns how far logs are read
     * @throws BadInputException as without a cache
     */
    public static LoadedTrial read(Path file, CacheFolder cache, boolean traced, ReadingProgress progress) {
        Path absolute = file.toAbsolutePath();
        Path parent = absolute.getParent();
        Path folder = parent == null ? absolute : parent;
        TrialReader reader = new TrialReader(
                RawFile.read(file, file.toString()),
                TrialFiles.in(folder, cache, traced, progress),
                RawFile.nameOf(file));
        LoadedTrial trial = reader.readToTheEnd();
        if (!reader.kept.isEmpty()) {
            cache.noteKept(file, reader.kept);
        }
        return trial;
    }

    /**
     * Reads a trial that is at hand as text, with the files that it names wherever they lie.
     *
     * @param text content of the trial file
     * @param name what messages call it
     * @param files where the named files lie
     * @throws BadInputException as for a trial in a folder
     */
    public static LoadedTrial read(String text, String name, TrialFiles files) {
        RawFile raw = RawFile.of(text.getBytes(StandardCharsets.UTF_8), name);
        return new TrialReader(raw, files, name).readToTheEnd();
    }

    private LoadedTrial readToTheEnd() {
        try {
            return read();
        } finally {
            files.cache().finish();
        }
    }

    private LoadedTrial read() {
        YamlMap sensorMap = top.map("sensor", SENSOR);
        Sensor sensor = sensor(sensorMap);
        Reference reference = reference();
        Limit limit = limit();
        StatedAccuracy stated = stated();
        Setup setup = setup();
        DecisionRule rule = top.choice("decision_rule", DecisionRule.class);
        ReadingMode mode = top.choice("reading_mode", ReadingMode.class);
        List<Exclusion> exclusions = exclusions();
        if (!top.has("readings") && !top.has("pieces") && !top.has("recordings")) {
            problems.add(ProblemCode.NO_DATA, top.at());
        }
        List<Series> series = readings(reference);
        List<Piece> pieces = pieces();
        RecordingsReader recordings =
                new RecordingsReader(files, sensor, evaluation(sensorMap), reference, problems, sources, notes);
        if (top.has("recordings")) {
            recordings.readAll(top);
            kept.addAll(recordings.kept());
        }
        problems.refuseIfAny();
        Trial trial = new Trial(
                top.textOr("trial", unnamed),
                sensor,
                reference,
                limit,
                stated,
                setup,
                rule == null ? DecisionRule.PROBABILITY : rule,
                mode == null ? ReadingMode.CUMULATIVE : mode,
                series,
                recordings.passes(),
                pieces,
                exclusions);
        askAboutSlips(trial);
        return new LoadedTrial(trial, sources, recordings.read(), notes);
    }

    private Sensor sensor(@Nullable YamlMap map) {
        if (map == null) {
            return new Sensor("", "", null, null, null);
        }
        Double bits = map.positive("counter_bits");
        if (bits != null && !(bits >= 2 && bits <= 64 && bits == Math.rint(bits))) {
            problems.add(ProblemCode.OUT_OF_RANGE, map.at("counter_bits"), map.textOr("counter_bits", ""), "2 to 64");
            bits = null;
        }
        return new Sensor(
                map.textOr("name", ""),
                map.textOr("serial", ""),
                map.positive("distance_per_count_mm"),
                bits == null ? null : bits.intValue(),
                map.positive("reading_resolution_mm"));
    }

    /** Which edges a log of channel levels is counted by; a counter has made that choice itself. */
    private static Quadrature.Evaluation evaluation(@Nullable YamlMap map) {
        Quadrature.Evaluation chosen = map == null ? null : map.choice("evaluation", Quadrature.Evaluation.class);
        return chosen == null ? Quadrature.Evaluation.X4 : chosen;
    }

    private Reference reference() {
        YamlMap map = top.map("reference", REFERENCE);
        if (map == null) {
            return Reference.unknown();
        }
        Reference.Kind kind = map.choice("kind", Reference.Kind.class);
        Double factor = map.positive("coverage_factor");
        return new Reference(
                map.textOr("name", ""),
                kind == null ? Reference.Kind.OTHER : kind,
                map.notNegative("expanded_uncertainty_mm"),
                map.notNegative("expanded_uncertainty_ppm"),
                factor == null ? 2 : factor,
                map.choice("class", TapeClass.class),
                map.positive("circumference_mm"),
                certificate(map.map("certificate", CERTIFICATE)));
    }

    private static Certificate certificate(@Nullable YamlMap map) {
        return map == null
                ? Certificate.NONE
                : new Certificate(
                        map.textOr("number", ""),
                        map.textOr("issued_by", ""),
                        map.textOr("date", ""),
                        map.textOr("traceable_to", ""));
    }

    private @Nullable Limit limit() {
        YamlMap map = top.map("limit", LIMIT);
        if (map == null) {
            return null;
        }
        int before = problems.count();
        Double relative = map.notNegative("relative_pct");
        Double absolute = map.notNegative("absolute_mm");
        Double atLength = map.positive("at_length_mm");
        Double smallest = map.positive("smallest_length_mm");
        LimitPreset preset = map.choice("preset", LimitPreset.class);
        if (problems.count() > before) {
            return null;
        }
        if (preset != null) {
            if (smallest == null) {
                problems.add(ProblemCode.KEY_MISSING, map.at("smallest_length_mm"), "smallest_length_mm");
                return null;
            }
            return preset.limit(smallest, atLength);
        }
        double b = relative == null ? 0 : ratio(relative);
        double a = absolute == null ? 0 : absolute;
        if (!(a + b > 0)) {
            problems.add(ProblemCode.LIMIT_ZERO, top.at("limit"));
            return null;
        }
        return new Limit(b, a, 0, atLength, null);
    }

    /** In decimals: 0.7 / 100 is not the double 0.007, and a figure exactly on the limit would fall outside. */
    private static double ratio(double percent) {
        return BigDecimal.valueOf(percent).movePointLeft(2).doubleValue();
    }

    private @Nullable StatedAccuracy stated() {
        YamlMap map = top.map("stated", STATED);
        if (map == null) {
            return null;
        }
        map.require("relative_pct");
        map.require("from_speed_mm_s");
        Double relative = map.positive("relative_pct");
        Double speed = map.notNegative("from_speed_mm_s");
        return relative == null || speed == null ? null : new StatedAccuracy(ratio(relative), speed);
    }

    private Setup setup() {
        YamlMap map = top.map("setup", SETUP);
        if (map == null) {
            return Setup.NOTHING_NOTED;
        }
        YamlMap temperature = map.map("reference_temperature_c", TEMPERATURE);
        return new Setup(
                map.textOr("name", ""),
                map.textOr("firmware", ""),
                map.positive("working_distance_mm"),
                map.notNegative("misalignment_deg"),
                map.number("abbe_offset_mm"),
                map.notNegative("abbe_angle_deg"),
                temperature == null ? null : temperature.number("mean"),
                temperature == null ? null : temperature.notNegative("half_width"),
                map.number("expansion_ppm_per_k"),
                map.number("latency_s"),
                map.textOr("parameters", ""),
                map.textOr("window", ""));
    }

    private List<Exclusion> exclusions() {
        List<Exclusion> exclusions = new ArrayList<>();
        for (YamlMap map : top.maps("exclude", EXCLUDE)) {
            map.require("pass");
            map.require("reason");
            String pass = map.text("pass");
            String reason = map.text("reason");
            if (pass != null && reason != null) {
                if (reason.isEmpty()) {
                    problems.add(ProblemCode.KEY_MISSING, map.at("reason"), "reason");
                }
                exclusions.add(new Exclusion(pass, reason, map.at("pass")));
            }
        }
        return exclusions;
    }

    private List<Series> readings(Reference reference) {
        List<Series> all = new ArrayList<>();
        Map<String, String> homes = new HashMap<>();
        for (String name : top.texts("readings")) {
            RawFile raw = open(name);
            if (raw == null) {
                continue;
            }
            for (Series series : collect(() -> ReadingsFile.read(raw, problems, notes, reference.circumferenceMm()))) {
                String other = homes.putIfAbsent(series.name(), name);
                if (other == null) {
                    all.add(series);
                } else {
                    SourcePosition at = series.standstills().get(0).at();
                    problems.add(ProblemCode.SERIES_SPLIT, at, series.name(), other);
                }
            }
        }
        return all;
    }

    private List<Piece> pieces() {
        List<Piece> all = new ArrayList<>();
        for (String name : top.texts("pieces")) {
            RawFile raw = open(name);
            if (raw != null) {
                all.addAll(collect(() -> PiecesFile.read(raw, problems, notes)));
            }
        }
        return all;
    }

    private @Nullable RawFile open(String name) {
        try {
            RawFile raw = RawFile.read(files.of(name), name);
            sources.add(raw.source());
            return raw;
        } catch (BadInputException e) {
            problems.addAll(e.problems());
            return null;
        }
    }

    private <T> List<T> collect(Supplier<List<T>> reader) {
        try {
            return reader.get();
        } catch (BadInputException e) {
            problems.addAll(e.problems());
            return List.of();
        }
    }

    private void askAboutSlips(Trial trial) {
        List<String> confirmed = top.texts("confirm").stream()
                .map(word -> word.toLowerCase(Locale.ROOT))
                .toList();
        List<InputProblem> open = new ArrayList<>();
        Set<String> used = new TreeSet<>();
        List<InputProblem> questions = new ArrayList<>(problems.questions());
        questions.addAll(Slips.questions(trial));
        for (InputProblem question : questions) {
            if (confirmed.contains(question.code().key())) {
                used.add(question.code().key());
            } else {
                open.add(question);
            }
        }
        if (!open.isEmpty()) {
            throw new BadInputException(open);
        }
        used.forEach(code -> notes.add(Note.of(NoteCode.CONFIRMED, "", code)));
    }
}
