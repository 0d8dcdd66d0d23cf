package slowproof.metrology.uncertainty;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import slowproof.metrology.Interval;

/**
 * An uncertainty budget by the law of propagation, first order (JCGM 100:2008, clause 5; clauses from memory).
 *
 * <p>Correlated inputs are merged into one component before the degrees of freedom are combined, because the
 * Welch-Satterthwaite formula holds for independent components only (G.4.1). The merged component takes the
 * smallest degrees of freedom of its members, which is exact for quantities observed together and otherwise on the
 * safe side.
 *
 * @param estimate best estimate of the result
 * @param lines one for each input, in the order of the model
 * @param combined the independent components
 */
public record Budget(double estimate, List<BudgetLine> lines, Combined combined) {

    // Numeric differentiation of an even function leaves a slope of rounding size instead of zero.
    private static final double VANISHING = 1e-8;

    /** Copies the list. */
    public Budget {
        lines = List.copyOf(lines);
    }

    /**
     * Evaluates a model.
     *
     * @param model the model
     * @return its budget
     * @throws IllegalArgumentException if correlation coefficients contradict each other
     * @throws ArithmeticException if the model or a sensitivity is not finite at the estimates; or if all first-order
     *     contributions vanish although the model does change within the uncertainty of its inputs, so that the
     *     first-order law would claim a certainty that is not there (use {@link MonteCarlo})
     */
    public static Budget of(UncertaintyModel model) {
        double estimate = model.estimate();
        CorrelationMatrix correlation = model.correlation();
        correlation.requirePossible();
        List<Input> inputs = model.inputs();
        double[] x = model.estimates();
        double[] u = uncertainties(model);
        double[] c = sensitivities(model);
        requireFirstOrder(model, x, u, c, estimate);
        boolean[] contributes = new boolean[c.length];
        for (int i = 0; i < c.length; i++) {
            contributes[i] = c[i] * u[i] != 0;
        }
        int[] componentOf = new int[c.length];
        Arrays.fill(componentOf, BudgetLine.NO_COMPONENT);
        List<Component> components = new ArrayList<>();
        for (List<Integer> group : correlation.groups(i -> contributes[i])) {
            group.forEach(i -> componentOf[i] = components.size());
            components.add(merged(model, group, c));
        }
        if (components.isEmpty()) {
            components.add(new Component(model.groupName(List.of(0)), 0, Double.POSITIVE_INFINITY));
        }
        List<BudgetLine> lines = new ArrayList<>();
        for (int i = 0; i < c.length; i++) {
            lines.add(new BudgetLine(inputs.get(i), c[i], componentOf[i]));
        }
        return new Budget(estimate, lines, Combined.of(components));
    }

    /**
     * Returns the interval estimate +/- k u_c.
     *
     * @param coverageProbability strictly between 0 and 1
     * @return in the unit of the result
     * @throws IllegalArgumentException if the probability is not strictly between 0 and 1
     */
    public Interval interval(double coverageProbability) {
        double expanded = combined.expandedUncertainty(coverageProbability);
        return new Interval(estimate - expanded, estimate + expanded);
    }

    static double[] uncertainties(UncertaintyModel model) {
        return model.inputs().stream()
                .mapToDouble(input -> input.distribution().standardUncertainty())
                .toArray();
    }

    static double[] sensitivities(UncertaintyModel model) {
        return model.givenSensitivities().orElseGet(() -> {
            double[] x = model.estimates();
            double[] u = uncertainties(model);
            double[] c = new double[x.length];
            for (int i = 0; i < c.length; i++) {
                c[i] = Derivatives.first(model.function(), x, i, u[i]);
            }
            return c;
        });
    }

    private static Component merged(UncertaintyModel model, List<Integer> group, double[] c) {
        double variance = 0;
        double degreesOfFreedom = Double.POSITIVE_INFINITY;
        for (int i : group) {
            Input input = model.inputs().get(i);
            degreesOfFreedom = Math.min(degreesOfFreedom, input.degreesOfFreedom());
            double own = c[i] * input.distribution().standardUncertainty();
            for (int j : group) {
                double other = c[j] * model.inputs().get(j).distribution().standardUncertainty();
                variance += model.correlation().get(i, j) * own * other;
            }
        }
        // fully correlated contributions may cancel, and rounding leave a little less than nothing
        return new Component(model.groupName(group), Math.sqrt(Math.max(0, variance)), degreesOfFreedom);
    }

    /** Largest change of the function when one input moves by its uncertainty, against the first-order prediction. */
    private static void requireFirstOrder(UncertaintyModel model, double[] x, double[] u, double[] c, double estimate) {
        double predicted = 0;
        double actual = 0;
        for (int i = 0; i < x.length; i++) {
            predicted = Math.max(predicted, Math.abs(c[i] * u[i]));
            for (double sign : new double[] {-1, 1}) {
                double[] moved = x.clone();
                moved[i] += sign * u[i];
                double change = Math.abs(model.function().value(moved) - estimate);
                // outside its domain the function says nothing about its slope
                if (Double.isFinite(change)) {
                    actual = Math.max(actual, change);
                }
            }
        }
        if (predicted < VANISHING * actual) {
            throw new ArithmeticException("every sensitivity vanishes at the estimates although the model changes by "
                    + actual + " within the uncertainty of an input: the first-order law does not apply, propagate the"
                    + " distributions instead");
        }
    }
}
