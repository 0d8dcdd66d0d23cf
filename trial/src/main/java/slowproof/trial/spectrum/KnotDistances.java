package slowproof.trial.spectrum;

import java.util.Arrays;

/**
 * A travel spectrum seen through hat functions in ln v. The distance at knot k is the integral of hat_k(ln v)
 * over the travel, hat_k being 1 at its own knot, 0 at the neighbours and straight in ln v between. The
 * hats add up to 1 between the outer knots, so the distances add up: {@code belowMm() + sum of distanceMm(k)}
 * is the whole travel.
 *
 * <p>Travel slower than the slowest knot stands apart in {@link #belowMm()}. Travel faster than the fastest
 * knot is counted in the last knot's distance (the hat is held at 1 there), and {@link #aboveMm()} says how
 * much of it that was.
 */
public final class KnotDistances {
    private final double[] knotsMmPerS;
    private final double[] distancesMm;
    private final double belowMm;
    private final double aboveMm;

    /** Takes the arrays over; only for callers in this package that hand out no other reference. */
    KnotDistances(double[] knotsMmPerS, double[] distancesMm, double belowMm, double aboveMm) {
        this.knotsMmPerS = knotsMmPerS;
        this.distancesMm = distancesMm;
        this.belowMm = belowMm;
        this.aboveMm = aboveMm;
    }

    /** Returns the number of knots. */
    public int size() {
        return knotsMmPerS.length;
    }

    /** Returns the speed of knot {@code k} in mm/s; ascending with k. */
    public double knotMmPerS(int k) {
        return knotsMmPerS[k];
    }

    /** Returns the distance at knot {@code k} in mm, at least 0. */
    public double distanceMm(int k) {
        return distancesMm[k];
    }

    /** Returns a copy of the distances in mm, by ascending speed of the knots. */
    public double[] distancesMm() {
        return distancesMm.clone();
    }

    /** Returns the distance travelled slower than the slowest knot, in mm, at least 0. */
    public double belowMm() {
        return belowMm;
    }

    /** Returns the part of the last knot's distance that was travelled faster than that knot, in mm. */
    public double aboveMm() {
        return aboveMm;
    }

    /** Returns the whole travel in mm: everything below the slowest knot and at the knots. */
    public double totalMm() {
        double sum = belowMm;
        for (double distance : distancesMm) {
            sum += distance;
        }
        return sum;
    }

    @Override
    public String toString() {
        return "below " + belowMm + " mm, at " + Arrays.toString(knotsMmPerS) + " mm/s " + Arrays.toString(distancesMm)
                + " mm";
    }
}
