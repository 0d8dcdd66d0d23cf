package slowproof.metrology.uncertainty;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;
import org.hipparchus.analysis.solvers.BrentSolver;
import slowproof.metrology.Check;

/**
 * Rectangular distribution whose limits are not exactly known: each limit is rectangular within the same half-width,
 * and both move against each other so that the middle stays (JCGM 101:2008, 6.4.3).
 *
 * @param low best estimate of the lower limit, in the unit of the quantity, finite
 * @param high best estimate of the upper limit
 * @param limitHalfWidth half-width of the knowledge of each limit, in the unit of the quantity, above 0 and below half
 *     the distance of the limits
 */
public record CurvilinearTrapezoid(double low, double high, double limitHalfWidth) implements InputDistribution {

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException if a value is outside its range
     */
    public CurvilinearTrapezoid {
        Limits.check(low, high);
        Check.positive(limitHalfWidth, "half-width of the limits");
        if (!(limitHalfWidth < Limits.halfWidth(low, high))) {
            throw new IllegalArgumentException("half-width of the limits " + limitHalfWidth
                    + " must be below half their distance, " + Limits.halfWidth(low, high));
        }
    }

    @Override
    public Shape shape() {
        return Shape.CURVILINEAR_TRAPEZOID;
    }

    @Override
    public double estimate() {
        return Limits.middle(low, high);
    }

    @Override
    public double standardUncertainty() {
        double half = Limits.halfWidth(low, high);
        return Math.sqrt(half * half / 3 + limitHalfWidth * limitHalfWidth / 9);
    }

    /** {@inheritDoc} The half-width is that of the estimated limits. */
    @Override
    public double divisor() {
        return Limits.halfWidth(low, high) / standardUncertainty();
    }

    @Override
    public double quantile(double p) {
        Check.openProbability(p, "probability");
        double half = Limits.halfWidth(low, high);
        double tail = Math.min(p, 1 - p);
        double shoulder = half - limitHalfWidth;
        double atShoulder = tailBeyond(shoulder);
        double distance;
        if (tail >= atShoulder) {
            // flat top: the tail falls evenly from one half in the middle to its value at the shoulder
            distance = shoulder * (0.5 - tail) / (0.5 - atShoulder);
        } else {
            distance = new BrentSolver(1e-15, 1e-15 * half, 0)
                    .solve(200, t -> tailBeyond(t) - tail, shoulder, half + limitHalfWidth);
        }
        return p < 0.5 ? estimate() - distance : estimate() + distance;
    }

    /** Probability beyond a distance from the middle, on one side, for a distance on the curved flank. */
    private double tailBeyond(double distance) {
        double reach = Limits.halfWidth(low, high) + limitHalfWidth;
        if (distance >= reach) {
            return 0;
        }
        return (reach - distance - distance * Math.log(reach / distance)) / (4 * limitHalfWidth);
    }

    @Override
    public ContinuousSampler sampler(UniformRandomProvider random) {
        double sum = low + high;
        double lowest = low - limitHalfWidth;
        double range = 2 * limitHalfWidth;
        return () -> {
            double from = lowest + range * random.nextDouble();
            double to = sum - from;
            return from + (to - from) * random.nextDouble();
        };
    }
}
