package slowproof.trial.curve;

/**
 * How error curves are drawn.
 *
 * @param seed seed of the draws
 * @param store where draws are kept
 */
public record Drawing(long seed, DrawStore store) {
    /** Returns drawing that keeps nothing. */
    public static Drawing of(long seed) {
        return new Drawing(seed, DrawStore.NONE);
    }
}
