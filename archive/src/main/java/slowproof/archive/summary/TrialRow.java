package slowproof.archive.summary;

import java.util.List;
import slowproof.archive.TrialEntry;

/**
 * A row of the list of trials.
 *
 * @param entry the trial
 * @param known whether its summary is up to date
 * @param attention what it waits for
 * @param passes number of passes
 * @param sensor sensor, empty when unknown
 * @param surfaces surfaces without their conditions
 */
public record TrialRow(
        TrialEntry entry,
        boolean known,
        Attention attention,
        int passes,
        String sensor,
        List<SurfaceSummary> surfaces) {
    /** Copies the list. */
    public TrialRow {
        surfaces = List.copyOf(surfaces);
    }
}
