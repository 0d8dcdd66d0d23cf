package slowproof.metrology.regression;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import slowproof.metrology.Check;

/**
 * Does a curve pass through the means of repeated readings? Splits the residual sum of squares into what repeats leave
 * about their own mean (pure error) and what their means leave about the curve (any textbook; NIST/SEMATECH e-Handbook
 * 4.4.4.6, from memory).
 */
public final class LackOfFit {
    private LackOfFit() {}

    /**
     * Splits the residuals.
     *
     * @param y readings; not modified
     * @param fitted value of the curve for each reading, equal for readings of one group; not modified
     * @param group number of the setting each reading belongs to; not modified
     * @param parameters number of parameters that the curve spent, at least 1
     * @return lack of fit (explained) against pure error (residual)
     * @throws IllegalArgumentException if lengths differ, a number is not finite, or there are not more settings than
     *     parameters or no repeats
     */
    public static VarianceSplit of(double[] y, double[] fitted, int[] group, int parameters) {
        Matrices.sameLength(y.length, fitted.length, "fitted values");
        Matrices.sameLength(y.length, group.length, "group numbers");
        Check.allFinite(y, "readings");
        Check.allFinite(fitted, "fitted values");
        if (parameters < 1) {
            throw new IllegalArgumentException("a curve has at least one parameter: " + parameters);
        }
        Map<Integer, double[]> sums = new LinkedHashMap<>();
        for (int i = 0; i < y.length; i++) {
            double[] sum = sums.computeIfAbsent(group[i], key -> new double[2]);
            sum[0] += y[i] - fitted[i];
            sum[1]++;
        }
        int between = sums.size() - parameters;
        int within = y.length - sums.size();
        if (between < 1 || within < 1) {
            throw new IllegalArgumentException("lack of fit needs repeats and more settings than parameters: "
                    + y.length + " readings at " + sums.size() + " settings, " + parameters + " parameters");
        }
        double pure = 0;
        double lack = 0;
        for (int i = 0; i < y.length; i++) {
            double[] sum = Objects.requireNonNull(sums.get(group[i]));
            double mean = sum[0] / sum[1];
            pure += (y[i] - fitted[i] - mean) * (y[i] - fitted[i] - mean);
            lack += mean * mean;
        }
        return new VarianceSplit(lack, between, pure, within);
    }
}
