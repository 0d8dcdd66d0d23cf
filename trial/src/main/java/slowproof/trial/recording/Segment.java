package slowproof.trial.recording;

/**
 * Rows that follow on one another.
 *
 * @param from first row, counted from 0
 * @param to row after the last
 */
public record Segment(int from, int to) {
    /** Checks that the segment holds a row. */
    public Segment {
        if (from < 0 || to <= from) {
            throw new IllegalArgumentException("a segment holds at least one row: " + from + " to " + to);
        }
    }

    /** Returns the number of rows. */
    public int size() {
        return to - from;
    }
}
