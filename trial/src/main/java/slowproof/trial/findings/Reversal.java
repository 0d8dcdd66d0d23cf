package slowproof.trial.findings;

import org.jspecify.annotations.Nullable;
import slowproof.metrology.Interval;

/**
 * Difference between forward and return errors, paired by cycle (general statistics, in the sense of the
 * reversal value of ISO 230-2).
 *
 * @param difference mean of forward minus return relative error, a ratio
 * @param interval 95 % interval of the mean by Student's t, ratios; null below two cycles
 */
public record Reversal(double difference, @Nullable Interval interval) {
    /** Returns true when the interval excludes zero. */
    public boolean significant() {
        return interval != null && (interval.low() > 0 || interval.high() < 0);
    }
}
