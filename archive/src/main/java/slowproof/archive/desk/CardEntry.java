package slowproof.archive.desk;

import java.time.Instant;

/**
 * A line of a list of cards.
 *
 * @param id id, letters and digits
 * @param number its number, from 1
 * @param startedAt when it was started
 * @param changedAt when the last event was recorded
 * @param open whether something is still to be done
 * @param due day by which it is to be done, ISO 8601, empty for none
 * @param title what it is, in one line
 */
public record CardEntry(
        String id, int number, Instant startedAt, Instant changedAt, boolean open, String due, String title) {}
