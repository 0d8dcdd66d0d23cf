package slowproof.metrology.uncertainty;

/**
 * When an adaptive propagation of distributions may stop (JCGM 101:2008, 7.9, from memory): when twice the standard
 * deviations of the average estimate, of the average standard uncertainty and of both average interval ends are below
 * the numerical tolerance.
 *
 * @param digits significant digits of the standard uncertainty that count, at least 1
 * @param toleranceShare share of the numerical tolerance that is asked for, above 0 and at most 1; 0.2 when the result
 *     is to validate another one (8.2)
 * @param interval whose ends have to be stable
 * @param mostTrials where to stop without having got there, at least 1
 */
public record Adaptive(int digits, double toleranceShare, IntervalKind interval, long mostTrials) {

    /** Enough for two significant digits of most results, and about 160 MB of memory. */
    public static final long DEFAULT_MOST_TRIALS = 10_000_000;

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException if a value is outside its range
     */
    public Adaptive {
        if (digits < 1 || mostTrials < 1) {
            throw new IllegalArgumentException(
                    "at least one digit and one trial are needed: " + digits + ", " + mostTrials);
        }
        if (!(toleranceShare > 0 && toleranceShare <= 1)) {
            throw new IllegalArgumentException(
                    "share of the numerical tolerance must be above 0 and at most 1: " + toleranceShare);
        }
    }

    /**
     * Returns the usual rule: full numerical tolerance, symmetric interval, ten million trials at most.
     *
     * @param digits significant digits of the standard uncertainty that count, at least 1
     * @return the rule
     */
    public static Adaptive toDigits(int digits) {
        return new Adaptive(digits, 1, IntervalKind.SYMMETRIC, DEFAULT_MOST_TRIALS);
    }

    /**
     * Returns the rule for a run that is to validate a budget.
     *
     * @param digits significant digits of the standard uncertainty that count, at least 1
     * @param interval which interval is compared
     * @return the rule, with a fifth of the numerical tolerance
     */
    public static Adaptive forValidation(int digits, IntervalKind interval) {
        return new Adaptive(digits, 0.2, interval, DEFAULT_MOST_TRIALS);
    }
}
