package slowproof.archive;

/**
 * What became of a trial that was brought from elsewhere.
 *
 * @param trial id of the trial
 * @param outcome what became of it
 * @param seq number of the last event here; where the trial differs, of the first event that does
 */
public record TakenIn(String trial, Outcome outcome, long seq) {
    /** What became of it. */
    public enum Outcome {
        /** The trial was not here. */
        NEW,
        /** The trial here had the same beginning; what had been recorded since was added. */
        GROWN,
        /** The trial here has all of it already. */
        SAME,
        /** The trial here went on differently. Nothing was recorded. */
        DIFFERS
    }
}
