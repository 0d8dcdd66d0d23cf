package slowproof.trial.forecast;

/**
 * How a forecast is computed.
 *
 * @param seed seed of all draws
 * @param pieces most pieces of the Monte Carlo run, at least 2; exactly so many where it may not stop earlier
 * @param adaptive whether the run may stop at two stable digits (JCGM 101:2008, 7.9); else it draws all pieces
 * @param threads how many may work at once, at least 1; no influence on the result
 */
public record Settings(long seed, long pieces, boolean adaptive, int threads) {
    /** Most pieces unless asked otherwise. */
    public static final long USUAL_PIECES = 10_000_000;

    /** Checks the parts. */
    public Settings {
        if (pieces < 2 || threads < 1) {
            throw new IllegalArgumentException("at least two pieces and one thread: " + pieces + ", " + threads);
        }
    }

    /** Returns the usual settings for a seed. */
    public static Settings of(long seed) {
        return new Settings(seed, USUAL_PIECES, true, Runtime.getRuntime().availableProcessors());
    }
}
