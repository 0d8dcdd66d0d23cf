package slowproof.trial.scatter;

import java.util.List;
import slowproof.metrology.Distributions;

/**
 * Scatter of repeated passes about the mean of their series and direction, pooled over conditions. Within a
 * direction no two passes to and fro share a reading, so the figure contains both readings of a pass once.
 *
 * @param standardDeviationMm pooled standard deviation of one pass in mm, at least 0
 * @param degreesOfFreedom degrees of freedom, at least 1
 * @param equalityProbability probability of variances as unequal as these if all conditions scatter alike (Bartlett's
 *     test, NIST/SEMATECH e-Handbook 1.3.5.7, no variance taken as less than that of rounding), 0 to 1; NaN when fewer than two conditions can be compared
 */
public record WithinScatter(double standardDeviationMm, int degreesOfFreedom, double equalityProbability) {
    /**
     * Returns the pooled scatter.
     *
     * @param sumsOfSquaresMm2 per condition the sum of squares about the means of series and direction, mm²
     * @param degreesOfFreedom per condition its degrees of freedom
     * @param roundingVarianceMm2 variance that rounding alone gives to the error of a pass in mm², at least 0; 0 when no
     *     step is known: conditions that repeat exactly are then not compared
     * @throws IllegalArgumentException if there is no degree of freedom at all
     */
    public static WithinScatter pooled(double[] sumsOfSquaresMm2, int[] degreesOfFreedom, double roundingVarianceMm2) {
        double sum = 0;
        int all = 0;
        for (int j = 0; j < sumsOfSquaresMm2.length; j++) {
            sum += sumsOfSquaresMm2[j];
            all += degreesOfFreedom[j];
        }
        if (all < 1) {
            throw new IllegalArgumentException("nothing was repeated");
        }
        return new WithinScatter(
                Math.sqrt(sum / all), all, bartlett(sumsOfSquaresMm2, degreesOfFreedom, roundingVarianceMm2));
    }

    private static double bartlett(double[] squares, int[] freedom, double least) {
        double pooled = 0;
        double inverse = 0;
        double logs = 0;
        int all = 0;
        int groups = 0;
        for (int j = 0; j < squares.length; j++) {
            double own = Math.max(squares[j], freedom[j] * least);
            if (own == 0) {
                continue;
            }
            pooled += own;
            all += freedom[j];
            inverse += 1.0 / freedom[j];
            logs += freedom[j] * Math.log(own / freedom[j]);
            groups++;
        }
        if (groups < 2) {
            return Double.NaN;
        }
        double statistic = (all * Math.log(pooled / all) - logs) / (1 + (inverse - 1.0 / all) / (3 * (groups - 1)));
        return 1 - Distributions.chiSquaredCdf(Math.max(0, statistic), groups - 1);
    }

    /** Returns the sum of squares and the degrees of freedom of one block about the means of series and direction. */
    public static Squares squares(ConditionBlock block) {
        return squares(block, true);
    }

    /**
     * Returns the same about the means of the series alone: a difference between the directions counts as scatter, so
     * that even one cycle says something, on the safe side.
     */
    public static Squares squaresOverDirections(ConditionBlock block) {
        return squares(block, false);
    }

    private static Squares squares(ConditionBlock block, boolean apart) {
        double sum = 0;
        int freedom = 0;
        List<PassError> passes = block.passes();
        int from = 0;
        while (from < passes.size()) {
            int to = from;
            while (to < passes.size()
                    && passes.get(to).series().equals(passes.get(from).series())) {
                to++;
            }
            for (int direction = -1; direction <= (apart ? 1 : -1); direction += 2) {
                int count = 0;
                double mean = 0;
                for (int i = from; i < to; i++) {
                    if (!apart || passes.get(i).direction() == direction) {
                        count++;
                        double delta = passes.get(i).errorMm() - mean;
                        mean += delta / count;
                        sum += delta * (passes.get(i).errorMm() - mean);
                    }
                }
                freedom += Math.max(0, count - 1);
            }
            from = to;
        }
        return new Squares(sum, freedom);
    }

    /**
     * A sum of squares.
     *
     * @param sumMm2 sum in mm², at least 0
     * @param degreesOfFreedom its degrees of freedom, at least 0
     */
    public record Squares(double sumMm2, int degreesOfFreedom) {}
}
