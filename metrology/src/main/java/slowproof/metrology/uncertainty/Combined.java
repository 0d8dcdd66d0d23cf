package slowproof.metrology.uncertainty;

import java.util.List;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;

/**
 * The combined standard uncertainty of independent components (JCGM 100:2008, 5.1.2 and annex G.4; clauses
 * from memory). Correlated contributions have to be merged into one component first: the effective degrees of
 * freedom hold for independent ones only (G.4.1).
 *
 * @param components at least one, in the order of the budget, all in the unit of the result
 */
public record Combined(List<Component> components) {

    /**
     * Copies the list.
     *
     * @throws IllegalArgumentException if there is no component
     */
    public Combined {
        components = List.copyOf(components);
        if (components.isEmpty()) {
            throw new IllegalArgumentException("a combined uncertainty needs at least one component");
        }
    }

    /**
     * Combines components.
     *
     * @param components at least one, all in the unit of the result
     * @return their combination
     * @throws IllegalArgumentException if there is no component
     */
    public static Combined of(List<Component> components) {
        return new Combined(components);
    }

    /**
     * Returns the root sum of squares of the components.
     *
     * @return u_c in the unit of the result, at least 0
     */
    public double standardUncertainty() {
        double largest = largest();
        if (largest == 0) {
            return 0;
        }
        // relative to the largest, so that squares neither overflow nor vanish
        double sum = 0;
        for (Component component : components) {
            double ratio = component.standardUncertainty() / largest;
            sum += ratio * ratio;
        }
        return largest * Math.sqrt(sum);
    }

    /**
     * Returns the effective degrees of freedom by the Welch-Satterthwaite formula, u_c^4 / sum(u_i^4/nu_i)
     * (JCGM 100:2008, G.2b, from memory), not truncated to a whole number.
     *
     * @return dimensionless, above 0; infinite when no component of finite degrees of freedom contributes
     */
    public double effectiveDegreesOfFreedom() {
        double combined = standardUncertainty();
        double sum = 0;
        for (Component component : components) {
            if (component.standardUncertainty() > 0) {
                double share = component.standardUncertainty() / combined;
                sum += share * share * share * share / component.degreesOfFreedom();
            }
        }
        return 1 / sum;
    }

    /**
     * Returns the factor that widens the standard uncertainty to an interval of the given coverage probability:
     * Student's t at (1 + p)/2 with the effective degrees of freedom (JCGM 100:2008, G.4.2, from memory).
     *
     * @param coverageProbability strictly between 0 and 1, such as 0.9545
     * @return k, dimensionless, above 0
     * @throws IllegalArgumentException if the probability is not strictly between 0 and 1
     */
    public double coverageFactor(double coverageProbability) {
        Check.openProbability(coverageProbability, "coverage probability");
        return Distributions.studentQuantile((1 + coverageProbability) / 2, effectiveDegreesOfFreedom());
    }

    /**
     * Returns the half-width of the coverage interval, U = k u_c.
     *
     * @param coverageProbability strictly between 0 and 1, such as 0.9545
     * @return in the unit of the result, at least 0
     * @throws IllegalArgumentException if the probability is not strictly between 0 and 1
     */
    public double expandedUncertainty(double coverageProbability) {
        return coverageFactor(coverageProbability) * standardUncertainty();
    }

    /**
     * Returns the share of one component in the combined variance.
     *
     * @param i index of the component, from 0
     * @return percent, 0 to 100; 0 for every component when the combined uncertainty is 0
     * @throws IndexOutOfBoundsException if there is no such component
     */
    public double sharePercent(int i) {
        double own = components.get(i).standardUncertainty();
        if (own == 0) {
            return 0;
        }
        double ratio = own / standardUncertainty();
        return 100 * ratio * ratio;
    }

    private double largest() {
        double largest = 0;
        for (Component component : components) {
            largest = Math.max(largest, component.standardUncertainty());
        }
        return largest;
    }
}
