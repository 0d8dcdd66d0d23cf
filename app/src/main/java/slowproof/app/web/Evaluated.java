package slowproof.app.web;

import java.time.ZoneId;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import slowproof.archive.sheet.NextMove;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.sheet.SheetSeries;
import slowproof.archive.sheet.SheetTrial;
import slowproof.files.in.LoadedTrial;
import slowproof.trial.RecordedPass;
import slowproof.trial.Series;
import slowproof.trial.Trial;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Pass;
import slowproof.trial.input.InputProblem;

/**
 * A sheet with what it means and what it says.
 *
 * @param sheet what was typed
 * @param meaning what it means
 * @param findings what it says, or null while it has no pass that counts
 * @param next what to run next
 * @param recordings its recordings as read, or null when it has none or they cannot be read
 * @param problems why its recordings cannot be read
 */
public record Evaluated(
        Sheet sheet,
        SheetTrial meaning,
        @Nullable Findings findings,
        NextMove next,
        @Nullable LoadedTrial recordings,
        List<InputProblem> problems) {
    /** Copies the list. */
    public Evaluated {
        problems = List.copyOf(problems);
    }

    /** Evaluates a sheet with what was read from its recordings; surfaces that nobody named get the given name. */
    static Evaluated of(Sheet sheet, KeptRecordings.Read read, String unnamed, ZoneId zone) {
        LoadedTrial loaded = read.loaded();
        List<RecordedPass> recorded =
                loaded == null ? List.of() : loaded.trial().recorded();
        SheetTrial meaning = SheetTrial.of(sheet, unnamed, zone, recorded);
        Findings findings = findings(meaning.trial());
        if (findings != null && loaded != null) {
            findings = findings.withNotesBefore(loaded.notes());
        }
        return new Evaluated(sheet, meaning, findings, NextMove.of(sheet, meaning, findings), loaded, read.problems());
    }

    private static @Nullable Findings findings(@Nullable Trial trial) {
        if (trial == null) {
            return null;
        }
        long passes = trial.series().stream()
                        .mapToLong(series -> series.standstills().size() - 1L)
                        .sum()
                + trial.recorded().size();
        // with every pass spoiled there is nothing to evaluate
        return trial.exclusions().size() < passes ? Evaluation.of(trial) : null;
    }

    /** Returns true when there is something to show. */
    public boolean hasFindings() {
        return findings != null;
    }

    /** Returns the findings. */
    public Findings said() {
        return Objects.requireNonNull(findings, "no findings yet");
    }

    /** Returns all passes, none when there are no findings. */
    public List<Pass> passes() {
        return findings == null ? List.of() : findings.passes();
    }

    /** Returns the series that is being run as it stands in the trial, or empty before its first move. */
    Optional<Series> running() {
        Trial trial = meaning.trial();
        Optional<SheetSeries> current = sheet.current();
        if (trial == null || current.isEmpty()) {
            return Optional.empty();
        }
        String name = meaning.seriesNames().get(current.get().seq());
        return trial.series().stream()
                .filter(series -> series.name().equals(name))
                .findFirst();
    }

    /** Returns the condition that is being run, both directions where both were driven, or empty. */
    Optional<Condition> runningCondition() {
        Optional<Series> running = running();
        if (findings == null || running.isEmpty()) {
            return Optional.empty();
        }
        Series series = running.get();
        return findings.leading(series.material()).stream()
                .filter(condition -> condition.key().speedMmPerS() == series.speedMmPerS()
                        && Objects.equals(condition.key().accelerationMmPerS2(), series.accelerationMmPerS2()))
                .findFirst();
    }
}
