package slowproof.metrology.conformity;

import java.util.Optional;
import org.hipparchus.analysis.solvers.BrentSolver;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * Where estimates must lie so that a decision holds with a wanted probability (JCGM 106:2012, clause 8, and the
 * default rule of ISO 14253-1:2017; clauses from memory). Everything but probabilities and degrees of freedom is in
 * the unit of the estimate.
 */
public final class GuardBand {

    private GuardBand() {}

    /**
     * Returns the guard band against a single limit: Student's t at the wanted probability, times u. It is right
     * for two limits as long as they are far apart, about 6 u.
     *
     * @param standardUncertainty u, at least 0
     * @param degreesOfFreedom of u, dimensionless, above 0, infinity allowed
     * @param probability wanted probability of a right decision, at least one half and below 1
     * @return at least 0
     * @throws IllegalArgumentException if an argument is outside its range
     */
    public static double width(double standardUncertainty, double degreesOfFreedom, double probability) {
        Check.notNegative(standardUncertainty, "standard uncertainty");
        if (!(probability >= 0.5 && probability < 1)) {
            throw new IllegalArgumentException("probability of a right decision must be at least 0.5 and below 1: "
                    + probability + "; for 95 % give 0.95");
        }
        double factor = Distributions.studentQuantile(probability, degreesOfFreedom);
        return standardUncertainty == 0 ? 0 : factor * standardUncertainty;
    }

    /**
     * Returns the estimates that prove conformity: those whose probability of lying inside the limits, both tails
     * counted, is at least the wanted one.
     *
     * @param tolerance the limits; an infinite end makes a one-sided limit
     * @param standardUncertainty u, at least 0
     * @param degreesOfFreedom of u, dimensionless, above 0, infinity allowed
     * @param probability wanted probability, at least one half and below 1
     * @return the acceptance interval; nothing when u is too large for any estimate to prove conformity
     * @throws IllegalArgumentException if an argument is outside its range
     */
    public static Optional<Interval> acceptance(
            Interval tolerance, double standardUncertainty, double degreesOfFreedom, double probability) {
        double oneSided = width(standardUncertainty, degreesOfFreedom, probability);
        if (standardUncertainty == 0) {
            return Optional.of(tolerance);
        }
        if (Double.isInfinite(tolerance.width())) {
            return Optional.of(new Interval(tolerance.low() + oneSided, tolerance.high() - oneSided));
        }
        double centre = tolerance.centre();
        Interval about = new Interval(-tolerance.width() / 2, tolerance.width() / 2);
        if (Conformance.probability(0, standardUncertainty, degreesOfFreedom, about) < probability) {
            return Optional.empty();
        }
        // the far limit takes its share too, so the band is at least as wide as against one limit
        double farthest = Math.max(0, about.high() - oneSided);
        double reach = distance(about, standardUncertainty, degreesOfFreedom, probability, farthest);
        return Optional.of(new Interval(centre - reach, centre + reach));
    }

    /**
     * Returns the estimates that do not prove nonconformity; outside this interval the probability of lying outside
     * the limits is at least the wanted one.
     *
     * @param tolerance the limits; an infinite end makes a one-sided limit
     * @param standardUncertainty u, at least 0
     * @param degreesOfFreedom of u, dimensionless, above 0, infinity allowed
     * @param probability wanted probability, at least one half and below 1
     * @return the interval; it may shrink to the middle of the limits when u is large against them
     * @throws IllegalArgumentException if an argument is outside its range
     */
    public static Interval notRejected(
            Interval tolerance, double standardUncertainty, double degreesOfFreedom, double probability) {
        double oneSided = width(standardUncertainty, degreesOfFreedom, probability);
        if (standardUncertainty == 0 || Double.isInfinite(tolerance.width())) {
            return new Interval(tolerance.low() - oneSided, tolerance.high() + oneSided);
        }
        double centre = tolerance.centre();
        Interval about = new Interval(-tolerance.width() / 2, tolerance.width() / 2);
        if (Conformance.probability(0, standardUncertainty, degreesOfFreedom, about) <= 1 - probability) {
            return new Interval(centre, centre);
        }
        double farthest = about.high() + oneSided;
        double reach = distance(about, standardUncertainty, degreesOfFreedom, 1 - probability, farthest);
        return new Interval(centre - reach, centre + reach);
    }

    /**
     * Returns the distance from the middle at which the probability of conformity, larger in the middle, falls to the
     * given value; at the farthest possible one it is not above it but for rounding.
     */
    private static double distance(Interval about, double u, double nu, double probability, double farthest) {
        if (Conformance.probability(farthest, u, nu, about) >= probability) {
            return farthest;
        }
        return new BrentSolver(1e-14, 1e-15 * farthest, 0)
                .solve(200, m -> Conformance.probability(m, u, nu, about) - probability, 0, farthest);
    }
}
