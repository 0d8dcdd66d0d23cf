package slowproof.metrology.uncertainty;

import java.util.ArrayList;
import java.util.List;
import slowproof.metrology.Check;
import slowproof.metrology.sampling.ModelFunction;
import slowproof.metrology.statistics.Statistics;

/**
 * Quantities that were read together several times, and are correlated for that reason (JCGM 100:2008, 5.2.3 and the
 * example H.2; clauses from memory).
 *
 * <p>Each mean is known by a Student distribution of n - 1 degrees of freedom; the correlation of two means is that of
 * the readings.
 */
public final class SimultaneousReadings {

    private final List<Input> inputs;
    private final double[][] coefficients;

    private SimultaneousReadings(List<Input> inputs, double[][] coefficients) {
        this.inputs = inputs;
        this.coefficients = coefficients;
    }

    /**
     * Evaluates readings.
     *
     * @param names name of each quantity, all different
     * @param readings readings of each quantity in its own unit, finite, at least two, as many for one as for another;
     *     readings at the same index belong together; not modified
     * @return the means with their uncertainties and correlations
     * @throws IllegalArgumentException if numbers of names or readings differ, there are fewer than two readings, or
     *     one is not finite
     */
    public static SimultaneousReadings of(List<String> names, List<double[]> readings) {
        if (names.isEmpty() || names.size() != readings.size()) {
            throw new IllegalArgumentException("each quantity needs a name and readings: " + names.size() + " names, "
                    + readings.size() + " sets");
        }
        int n = readings.get(0).length;
        List<Input> inputs = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            double[] own = readings.get(i);
            if (own.length != n) {
                throw new IllegalArgumentException("readings of " + names.get(i)
                        + " must be as many as those of the others: " + own.length + " instead of " + n);
            }
            Check.allFinite(own, "readings of " + names.get(i));
            double uncertainty = Statistics.standardDeviation(own) / Math.sqrt(n);
            inputs.add(Input.of(names.get(i), new ScaledStudent(Statistics.mean(own), uncertainty, n - 1.0)));
        }
        double[][] coefficients = new double[names.size()][names.size()];
        for (int i = 0; i < names.size(); i++) {
            for (int j = 0; j < names.size(); j++) {
                coefficients[i][j] = coefficient(readings.get(i), readings.get(j));
            }
        }
        return new SimultaneousReadings(List.copyOf(inputs), coefficients);
    }

    private static double coefficient(double[] a, double[] b) {
        double meanA = Statistics.mean(a);
        double meanB = Statistics.mean(b);
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += (a[i] - meanA) * (b[i] - meanB);
        }
        double scale = Statistics.standardDeviation(a) * Statistics.standardDeviation(b) * (a.length - 1);
        // a quantity that never moved goes along with nothing
        return scale == 0 ? 0 : Math.max(-1, Math.min(1, sum / scale));
    }

    /**
     * Returns the quantities.
     *
     * @return their means with standard uncertainties and degrees of freedom, in the order of the names
     */
    public List<Input> inputs() {
        return inputs;
    }

    /**
     * Returns the correlation coefficient of two means.
     *
     * @param i index of one quantity, from 0
     * @param j index of another
     * @return dimensionless, -1 to 1; 0 when the readings of one are all equal
     * @throws IndexOutOfBoundsException if there is no such quantity
     */
    public double correlation(int i, int j) {
        return coefficients[i][j];
    }

    /**
     * Returns a model of these quantities alone, correlated as they are.
     *
     * @param function the result as a function of the quantities, in the order of the names
     * @return the model
     */
    public UncertaintyModel model(ModelFunction function) {
        UncertaintyModel model = UncertaintyModel.of(inputs, function);
        for (int i = 0; i < inputs.size(); i++) {
            for (int j = 0; j < i; j++) {
                model = model.withCorrelation(
                        inputs.get(i).name(), inputs.get(j).name(), coefficients[i][j]);
            }
        }
        return model;
    }
}
