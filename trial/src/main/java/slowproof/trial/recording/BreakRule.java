package slowproof.trial.recording;

import slowproof.trial.Check;

/**
 * When rows count as missing, and when that cuts the recording.
 *
 * <p>Rows are missing where the interval exceeds {@code gapFactor} times the median interval. A shorter gap
 * cannot hide a standstill, and both readings, being cumulative, stay comparable across it: the pass is kept
 * and flagged. From {@code splitS} on a standstill might hide in the gap, so the recording is cut.
 *
 * @param gapFactor multiple of the median interval above which rows are missing, above 1
 * @param splitS length of a gap in s from which the recording is cut, above zero
 */
public record BreakRule(double gapFactor, double splitS) {
    /** Ten intervals; half a second, the shortest dwell looked for. */
    public static final BreakRule DEFAULT = new BreakRule(10, 0.5);

    /** Checks the parts. */
    public BreakRule {
        if (!(gapFactor > 1)) {
            throw new IllegalArgumentException("gap factor must be above 1, found " + gapFactor);
        }
        Check.positive(splitS, "gap that cuts", "s");
    }
}
