package slowproof.metrology.uncertainty;

import java.util.ArrayList;
import java.util.List;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * The law of propagation with the terms of next higher order for independent inputs (JCGM 100:2008, note to 5.1.2,
 * from memory): u^2 = sum c_i^2 u_i^2 + sum over i and j of (f_ij^2/2 + f_i f_ijj) u_i^2 u_j^2. The terms of one
 * input with itself assume a normal distribution.
 *
 * @param estimate best estimate of the result
 * @param firstOrder standard uncertainty of the first order, in the unit of the result, at least 0
 * @param terms the additional terms, one for each pair of inputs and one for each input with itself
 */
public record SecondOrder(double estimate, double firstOrder, List<Term> terms) {

    /** Copies the list. */
    public SecondOrder {
        terms = List.copyOf(terms);
    }

    /**
     * What two inputs add together, or one by its curvature.
     *
     * @param first name of an input
     * @param second name of another, or the same
     * @param variance addition to the variance of the result, in its squared unit; may be negative
     */
    public record Term(String first, String second, double variance) {}

    /**
     * Evaluates a model.
     *
     * @param model a model without correlations, finite within two standard uncertainties of the estimates
     * @return the result with its terms
     * @throws IllegalArgumentException if inputs are correlated
     * @throws ArithmeticException if the model is not finite near the estimates
     */
    public static SecondOrder of(UncertaintyModel model) {
        if (model.allGroups().size() < model.inputs().size()) {
            throw new IllegalArgumentException("terms of higher order are for independent inputs only");
        }
        double[] x = model.estimates();
        double[] u = Budget.uncertainties(model);
        double[] c = Budget.sensitivities(model);
        double firstOrder = 0;
        List<Term> terms = new ArrayList<>();
        for (int i = 0; i < x.length; i++) {
            firstOrder = Math.hypot(firstOrder, c[i] * u[i]);
            for (int j = i; j < x.length; j++) {
                double mixed = Derivatives.second(model.function(), x, u, i, j);
                double variance = i == j
                        ? mixed * mixed / 2 + c[i] * u[i] * Derivatives.third(model.function(), x, u, i, i)
                        : mixed * mixed
                                + c[i] * u[i] * Derivatives.third(model.function(), x, u, i, j)
                                + c[j] * u[j] * Derivatives.third(model.function(), x, u, j, i);
                if (!Double.isFinite(variance)) {
                    throw new ArithmeticException("the model is not finite near the estimates of "
                            + model.groupName(List.of(i)) + " and " + model.groupName(List.of(j)));
                }
                terms.add(new Term(
                        model.inputs().get(i).name(), model.inputs().get(j).name(), variance));
            }
        }
        return new SecondOrder(model.estimate(), firstOrder, terms);
    }

    /**
     * Returns the standard uncertainty with all terms.
     *
     * @return in the unit of the result, at least 0
     */
    public double standardUncertainty() {
        double sum = firstOrder * firstOrder;
        for (Term term : terms) {
            sum += term.variance();
        }
        return Math.sqrt(Math.max(0, sum));
    }

    /**
     * Returns the interval estimate +/- k u of a normal distribution.
     *
     * @param coverageProbability strictly between 0 and 1
     * @return in the unit of the result
     * @throws IllegalArgumentException if the probability is not strictly between 0 and 1
     */
    public Interval interval(double coverageProbability) {
        Check.openProbability(coverageProbability, "coverage probability");
        double half = Distributions.normalQuantile((1 + coverageProbability) / 2) * standardUncertainty();
        return new Interval(estimate - half, estimate + half);
    }
}
