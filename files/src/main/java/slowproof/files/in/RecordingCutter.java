package slowproof.files.in;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import slowproof.files.cache.CacheFolder;
import slowproof.files.cache.Fingerprints;
import slowproof.files.cache.KeyText;
import slowproof.files.log.LogPart;
import slowproof.files.log.LogReader;
import slowproof.files.log.LogRequest;
import slowproof.files.log.LogResult;
import slowproof.trial.RecordedPass;
import slowproof.trial.clock.Alignment;
import slowproof.trial.clock.ClockEstimator;
import slowproof.trial.clock.ClockFit;
import slowproof.trial.clock.ClockReason;
import slowproof.trial.counts.CounterRegister;
import slowproof.trial.findings.Flag;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.FoundPass;
import slowproof.trial.recording.PassFinder;
import slowproof.trial.recording.PassFlag;
import slowproof.trial.recording.PassSearch;
import slowproof.trial.recording.PassSettings;
import slowproof.trial.recording.PlateauSpeed;
import slowproof.trial.recording.Recording;
import slowproof.trial.recording.RecordingJoiner;
import slowproof.trial.recording.SpeedJudge;
import slowproof.trial.recording.SpeedTrace;
import slowproof.trial.recording.StandstillDrift;

/** Reads one recording of a trial and cuts it into passes, or takes what came of it before from the cache. */
final class RecordingCutter {
    private final TrialFiles files;
    private final List<Note> notes = new ArrayList<>();
    private final List<SourceFile> sources = new ArrayList<>();

    private RecordingCutter(TrialFiles files) {
        this.files = files;
    }

    /**
     * What is wanted of a recording.
     *
     * @param name name that its passes bear
     * @param log its log, or that of the sensor
     * @param reference the log of the reference, or null when both are in one
     * @param typed what the reference moved in each pass, or null when it is logged
     * @param reversed true when the sensor counts against the reference
     * @param settings what counts as a standstill
     * @param at where the trial names it
     */
    record Wanted(
            String name,
            LogRequest log,
            @Nullable LogRequest reference,
            @Nullable TypedReferences typed,
            boolean reversed,
            PassSettings settings,
            SourcePosition at) {
        List<LogRequest> logs() {
            return reference == null ? List.of(log) : List.of(log, reference);
        }
    }

    /**
     * What a recording came to.
     *
     * @param cutting what that is
     * @param keptAs name under which it is kept; null when no log is large, or one was written just now
     */
    record Result(Cutting cutting, @Nullable String keptAs) {}

    /**
     * Returns what a recording came to.
     *
     * @param files where the logs lie
     * @throws BadInputException with what is wrong with its logs
     */
    static Result cut(TrialFiles files, Wanted wanted) {
        CacheFolder cache = files.cache();
        String before = files.watcher() == null ? keptName(files, wanted) : null;
        Cutting kept = before == null ? null : Cutting.get(cache, before);
        if (kept != null && (kept.cut().trace() != null || !files.traced())) {
            return new Result(kept, before);
        }
        Cutting cutting = new RecordingCutter(files).cut(wanted);
        String name = keptName(files, wanted);
        if (name != null) {
            cutting.put(cache, name);
        }
        return new Result(cutting, name);
    }

    /** Returns true when one of its logs is large enough for what came of it to be kept. */
    static boolean isLarge(TrialFiles files, Wanted wanted) {
        return wanted.logs().stream().anyMatch(log -> files.cache().worthwhile(files.of(log.name())));
    }

    /** Returns the name under which the result is kept; null when no log is large, or one was not read yet. */
    private static @Nullable String keptName(TrialFiles files, Wanted wanted) {
        CacheFolder cache = files.cache();
        if (!isLarge(files, wanted)) {
            return null;
        }
        List<String> parts = new ArrayList<>(List.of("cutting/7", cache.program(), wanted.name()));
        Fingerprints fingerprints = new Fingerprints(cache);
        for (LogRequest log : wanted.logs()) {
            Path path = files.of(log.name());
            // a small log beside a large one is quickly read for its fingerprint
            String sha256 = cache.worthwhile(path) ? fingerprints.known(path) : Fingerprints.of(path);
            if (sha256 == null) {
                return null;
            }
            parts.add(sha256);
        }
        parts.add(settingsKey(wanted));
        return CacheFolder.key(parts.toArray(new String[0])) + ".passes";
    }

    /** Returns all that decides what comes of the same bytes. */
    static String settingsKey(Wanted wanted) {
        KeyText key = new KeyText().add(wanted.reversed());
        for (LogRequest log : wanted.logs()) {
            CounterRegister register = log.scale().register();
            key.add(log.readingKey())
                    .add(log.scale().distancePerCountMm())
                    .add(register == null ? null : register.bits())
                    .add(register == null ? null : register.signed())
                    .add(log.scale().topSpeedMmPerS())
                    .add(log.scale().evaluation())
                    .add(log.breaks().gapFactor())
                    .add(log.breaks().splitS());
        }
        TypedReferences typed = wanted.typed();
        key.add(typed == null ? null : typed.mm());
        PassSettings settings = wanted.settings();
        return key.add(settings.dwellS())
                .add(settings.stillBelowMmPerS())
                .add(settings.movingAboveMmPerS())
                .add(settings.settleS())
                .toString();
    }

    private Cutting cut(Wanted wanted) {
        LogResult log = open(wanted.log(), wanted.reversed());
        Together together = wanted.reference() == null
                ? new Together(
                        log.recording(),
                        log.readAs().summary(),
                        null,
                        wanted.typed() == null ? "one clock" : "typed reference")
                : twoClocks(wanted, log, open(wanted.reference(), false));
        Recording recording = together.recording();
        notes.addAll(recording.notes());
        TrialFiles.Watcher watcher = files.watcher();
        if (watcher != null) {
            watcher.see(wanted.name(), recording);
        }
        boolean large = recording.isLong();
        // the picture needs nothing of the search
        CompletableFuture<@Nullable SpeedTrace> trace =
                large ? CompletableFuture.supplyAsync(() -> trace(recording)) : null;
        PassSearch search = PassFinder.find(recording, wanted.settings());
        notes.addAll(search.notes());
        if (search.passes().isEmpty()) {
            throw noPasses(wanted, recording, search);
        }
        if (wanted.reference() != null && together.clock() == null) {
            checkRates(wanted, search);
        }
        List<RecordedPass> passes = recorded(wanted, recording, search);
        boolean stated = wanted.settings().stillBelowMmPerS() != null;
        return new Cutting(
                together.readAs(),
                together.clock(),
                together.reason(),
                RecordingCut.of(
                        wanted.name(), recording, search, stated, trace == null ? trace(recording) : trace.join()),
                passes,
                notes,
                sources);
    }

    /**
     * One offset does not bring clocks together that run at different rates: then the sensor moves while the reference rests.
     *
     * @throws BadInputException if that is so in half of the passes or more
     */
    private void checkRates(Wanted wanted, PassSearch search) {
        int apart = (int) search.passes().stream()
                .filter(pass -> pass.flags().contains(PassFlag.STANDSTILL_DRIFT))
                .count();
        int all = search.passes().size();
        if (2 * apart >= all) {
            throw BadInputException.of(ProblemCode.CLOCKS_NOT_ALIGNED, wanted.at(), ClockReason.RATES_DIFFER.key());
        }
        if (apart > 0) {
            notes.add(Note.of(NoteCode.LOG_CLOCKS_APART, wanted.log().name(), apart, all));
        }
    }

    /** Tells what was found instead of passes, since many mistakes end here: of unit, column, register, or what counts as rest. */
    private static BadInputException noPasses(Wanted wanted, Recording recording, PassSearch search) {
        Column time = recording.timeS();
        return BadInputException.of(
                ProblemCode.NO_PASSES,
                wanted.at(),
                wanted.log().name(),
                recording.size(),
                new Quantity(time.at(recording.size() - 1) - time.at(0), Unit.S),
                Quantity.mm(recording.trackMm().span()),
                search.standstills().size(),
                new Quantity(search.dwellS(), Unit.S),
                Quantity.mm(search.stillBelowMmPerS() * search.dwellS()),
                recording.segments().size(),
                jumps(recording, Break.Cause.COUNTER_STEP),
                jumps(recording, Break.Cause.REFERENCE_STEP));
    }

    /** Returns how often a recording was cut for a cause, or empty text when never. */
    private static Object jumps(Recording recording, Break.Cause cause) {
        long jumps = recording.breaks().stream()
                .filter(place -> place.cause() == cause)
                .count();
        return jumps == 0 ? "" : jumps;
    }

    private @Nullable SpeedTrace trace(Recording recording) {
        return files.traced() ? SpeedTrace.of(recording, RecordingCut.PIECES) : null;
    }

    private LogResult open(LogRequest request, boolean reversed) {
        LogResult result = LogReader.read(files.of(request.name()), request, files.cache(), files.progress());
        sources.add(new SourceFile(request.name(), result.sha256()));
        notes.addAll(result.notes());
        return reversed && request.part() != LogPart.REFERENCE
                ? new LogResult(result.recording().reversed(), result.readAs(), result.sha256(), result.notes())
                : result;
    }

    /** A recording on one clock, with how it came about. */
    private record Together(
            Recording recording,
            String readAs,
            RecordingRead.@Nullable Clock clock,
            @Nullable String reason) {}

    private Together twoClocks(Wanted wanted, LogResult sensorLog, LogResult referenceLog) {
        Alignment alignment = ClockEstimator.align(sensorLog.recording(), referenceLog.recording());
        ClockReason reason = alignment.reason();
        if (!alignment.usable()) {
            throw BadInputException.of(ProblemCode.CLOCKS_NOT_ALIGNED, wanted.at(), reason == null ? "" : reason.key());
        }
        String file = wanted.log().name();
        ClockFit fit = alignment.fit();
        if (fit == null) {
            notes.add(Note.of(
                    NoteCode.LOG_CLOCKS_ROUGH,
                    file,
                    new Quantity(alignment.roughOffsetS(), Unit.S),
                    reason == null ? "" : reason.key()));
        } else {
            notes.add(Note.of(
                    NoteCode.LOG_CLOCKS,
                    file,
                    new Quantity(1000 * fit.offsetAtEpochS(), Unit.MS),
                    new Quantity(1000 * fit.offsetAtEpochStandardUncertaintyS(), Unit.MS),
                    fit.driftMeasured() ? new Quantity(fit.driftPpm(), Unit.PPM) : "",
                    fit.driftMeasured() ? new Quantity(fit.driftStandardUncertaintyPpm(), Unit.PPM) : ""));
        }
        return new Together(
                RecordingJoiner.join(sensorLog.recording(), referenceLog.recording(), alignment::referenceTimeS),
                sensorLog.readAs().summary() + " | " + referenceLog.readAs().summary(),
                fit == null ? null : RecordingRead.Clock.of(fit),
                reason == null ? null : reason.key().replace('_', ' '));
    }

    private static List<RecordedPass> recorded(Wanted wanted, Recording recording, PassSearch search) {
        List<FoundPass> found = search.passes();
        TypedReferences typed = wanted.typed();
        List<Double> travels = typed == null
                ? found.stream().map(FoundPass::referenceMm).toList()
                : typed.of(found, wanted.log().name());
        StandstillDrift drift = search.drift();
        IntStream numbers = IntStream.range(0, found.size());
        return (recording.isLong() ? numbers.parallel() : numbers)
                .mapToObj(i -> {
                    FoundPass pass = found.get(i);
                    PlateauSpeed shown = recording.hasReference()
                            ? SpeedJudge.judge(recording, search, pass, SpeedJudge.USUAL_AVERAGING_S)
                            : null;
                    double drifted = drift == null ? 0 : drift.overDwellsMm(pass);
                    return recorded(pass, travels.get(i), shown, drifted, wanted.name());
                })
                .toList();
    }

    private static RecordedPass recorded(
            FoundPass pass, double travelMm, @Nullable PlateauSpeed shown, double standstillDriftMm, String name) {
        List<Flag> flags = new ArrayList<>();
        for (PassFlag flag : pass.flags()) {
            flags.add(Flag.valueOf(flag.name()));
        }
        return new RecordedPass(
                name,
                "",
                "",
                null,
                pass.plateauSpeedMmPerS(),
                null,
                pass.startS(),
                pass.endS(),
                travelMm,
                pass.indicationMm(),
                Double.isNaN(pass.dropoutShare()) ? null : Double.valueOf(100 * pass.dropoutShare()),
                shown == null ? null : shown.relative(),
                standstillDriftMm,
                pass.joined(),
                flags);
    }
}
