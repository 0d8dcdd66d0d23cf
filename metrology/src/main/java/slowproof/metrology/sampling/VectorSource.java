package slowproof.metrology.sampling;

/** A stream of draws of several quantities at once. Not for use by several threads. */
@FunctionalInterface
public interface VectorSource {

    /**
     * Fills an array with the next draw.
     *
     * @param x overwritten; one place for each quantity
     */
    void next(double[] x);
}
