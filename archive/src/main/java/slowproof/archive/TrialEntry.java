package slowproof.archive;

import java.time.Instant;

/**
 * A line of the list of trials.
 *
 * @param id id, letters and digits
 * @param startedAt when it was started
 * @param changedAt when the last event was recorded
 * @param title its title, empty when it has none
 */
public record TrialEntry(String id, Instant startedAt, Instant changedAt, String title) {}
