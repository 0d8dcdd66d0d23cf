package slowproof.archive;

import java.util.Comparator;
import slowproof.trial.evidence.Evidence;

/**
 * A surface of a trial with just what tells how near it lies to a question.
 *
 * @param trial id of the trial
 * @param place number of the surface in the trial, from 0
 * @param changedAt when the last event of the trial was recorded, ISO 8601 in UTC
 * @param evidence figures without the results of its conditions
 */
public record Near(String trial, int place, String changedAt, Evidence evidence) {
    /** The last changed first; trial and place make the order complete. */
    public static final Comparator<Near> LAST_CHANGED_FIRST = Comparator.comparing(Near::changedAt)
            .reversed()
            .thenComparing(Near::trial)
            .thenComparingInt(Near::place);
}
