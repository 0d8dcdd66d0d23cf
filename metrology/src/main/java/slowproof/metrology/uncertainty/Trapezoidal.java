package slowproof.metrology.uncertainty;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;
import slowproof.metrology.Check;

/**
 * Symmetric trapezoidal distribution, the sum of two rectangular ones (JCGM 101:2008, 6.4.4).
 *
 * @param low lower limit in the unit of the quantity, finite
 * @param high upper limit, not below the lower
 * @param topRatio width of the top over width of the base, dimensionless, from 0 (triangle) to 1 (rectangle)
 */
public record Trapezoidal(double low, double high, double topRatio) implements InputDistribution {

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException if a value is outside its range
     */
    public Trapezoidal {
        Limits.check(low, high);
        if (!(topRatio >= 0 && topRatio <= 1)) {
            throw new IllegalArgumentException("ratio of top to base must lie from 0 to 1: " + topRatio);
        }
    }

    /**
     * Returns the distribution of the sum of two rectangular quantities about zero, added to an estimate.
     *
     * @param estimate in the unit of the quantity
     * @param firstHalfWidth in the unit of the quantity, at least 0
     * @param secondHalfWidth in the unit of the quantity, at least 0, not both 0
     * @return the distribution
     */
    public static Trapezoidal ofSum(double estimate, double firstHalfWidth, double secondHalfWidth) {
        double base = Check.positive(firstHalfWidth + secondHalfWidth, "sum of the half-widths");
        double top = Math.abs(firstHalfWidth - secondHalfWidth);
        return new Trapezoidal(estimate - base, estimate + base, top / base);
    }

    @Override
    public Shape shape() {
        return Shape.TRAPEZOIDAL;
    }

    @Override
    public double estimate() {
        return Limits.middle(low, high);
    }

    @Override
    public double standardUncertainty() {
        return Limits.halfWidth(low, high) / divisor();
    }

    @Override
    public double divisor() {
        return Math.sqrt(6 / (1 + topRatio * topRatio));
    }

    @Override
    public double quantile(double p) {
        Check.openProbability(p, "probability");
        double tail = Math.min(p, 1 - p);
        double slopeShare = (1 - topRatio) / (2 * (1 + topRatio));
        // distance from the nearer limit, in half-widths
        double inside = tail < slopeShare
                ? Math.sqrt(2 * tail * (1 - topRatio * topRatio))
                : (1 - topRatio) + (tail - slopeShare) * (1 + topRatio);
        double distance = inside * Limits.halfWidth(low, high);
        return p < 0.5 ? low + distance : high - distance;
    }

    @Override
    public ContinuousSampler sampler(UniformRandomProvider random) {
        double half = Limits.halfWidth(low, high);
        double wide = half * (1 + topRatio);
        double narrow = half * (1 - topRatio);
        return () -> low + wide * random.nextDouble() + narrow * random.nextDouble();
    }
}
