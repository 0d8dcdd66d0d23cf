package slowproof.metrology.reference;

import org.jspecify.annotations.Nullable;

/**
 * One figure of a reference case.
 *
 * @param name what it is, unique within its case
 * @param published the figure as printed, null when it was only computed
 * @param value the figure a test is held to
 * @param tolerance largest allowed absolute difference from {@code value}; for a printed figure mostly half of its
 *     last place
 * @param recomputed the figure recomputed independently with full precision, null when that was not possible
 */
public record ExpectedValue(
        String name,
        @Nullable String published,
        double value,
        double tolerance,
        @Nullable Double recomputed) {

    /** The best known value: the independent recomputation where there is one. */
    public double best() {
        return recomputed == null ? value : recomputed;
    }
}
