package slowproof.archive.summary;

import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.archive.sheet.Sheet;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Standing;

/**
 * A trial in figures.
 *
 * @param trial id of the trial
 * @param seq number of its last event when this was made
 * @param attention what it waits for
 * @param passes number of passes
 * @param sensor name and serial number of the sensor, empty when unknown
 * @param surfaces surfaces in the order of the trial; none before the first pass
 */
public record TrialSummary(
        String trial, long seq, Attention attention, int passes, String sensor, List<SurfaceSummary> surfaces) {
    /** Copies the list. */
    public TrialSummary {
        surfaces = List.copyOf(surfaces);
    }

    /**
     * Returns the summary of a trial.
     *
     * @param sheet sheet of the trial
     * @param findings its findings, or null while it has none
     */
    public static TrialSummary of(Sheet sheet, @Nullable Findings findings) {
        String sensor = sheet.facts().sensor();
        return new TrialSummary(
                sheet.id(),
                sheet.lastSeq(),
                Attention.of(sheet, findings),
                findings == null ? 0 : findings.passes().size(),
                sensor,
                findings == null
                        ? List.of()
                        : findings.materials().stream()
                                .map(material -> SurfaceSummary.of(findings, material))
                                .toList());
    }

    /** Returns where the trial stands: where the surface stands that a reader should look at first. */
    public Standing standing() {
        List<Standing> worstFirst =
                List.of(Standing.UNDECIDED, Standing.FAILS, Standing.PARTLY, Standing.SCREENING_ONLY, Standing.HOLDS);
        return surfaces.stream()
                .map(SurfaceSummary::standing)
                .min(Comparator.comparing(worstFirst::indexOf))
                .orElse(Standing.SCREENING_ONLY);
    }

    /** Returns the slowest tested speed in mm/s, or null before the first pass. */
    public @Nullable Double slowestMmPerS() {
        return surfaces.stream()
                .map(SurfaceSummary::slowestMmPerS)
                .min(Comparator.naturalOrder())
                .orElse(null);
    }

    /** Returns the fastest tested speed in mm/s, or null before the first pass. */
    public @Nullable Double fastestMmPerS() {
        return surfaces.stream()
                .map(SurfaceSummary::fastestMmPerS)
                .max(Comparator.naturalOrder())
                .orElse(null);
    }

    /** Returns the slowest speed in mm/s from which on some surface holds, or null. */
    public @Nullable Double holdsFromMmPerS() {
        return surfaces.stream()
                .map(SurfaceSummary::holdsFromMmPerS)
                .filter(Objects::nonNull)
                .min(Comparator.naturalOrder())
                .orElse(null);
    }
}
