package slowproof.trial.scatter;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.jspecify.annotations.Nullable;

/**
 * What the passes of one condition add to the restricted likelihood of the variance components. Fixed effects
 * are the means of the directions; series are independent of each other, so all matrices are as large as one
 * series, and series of equal pattern share them.
 */
final class ConditionLikelihood {
    /** Start, travel, series. */
    static final int COMPONENTS = 3;

    private final int columns;
    private final List<Pattern> patterns;
    private final List<SeriesData> series;

    private ConditionLikelihood(int columns, List<Pattern> patterns, List<SeriesData> series) {
        this.columns = columns;
        this.patterns = patterns;
        this.series = series;
    }

    /** Returns the part of a condition, or null when its means leave no degree of freedom. */
    static @Nullable ConditionLikelihood of(ConditionBlock block, double readingVarianceMm2) {
        List<PassError> passes = block.passes();
        int forward = (int) passes.stream().filter(p -> p.direction() > 0).count();
        int columns = (forward > 0 ? 1 : 0) + (forward < passes.size() ? 1 : 0);
        if (passes.size() <= columns) {
            return null;
        }
        Map<String, Pattern> known = new HashMap<>();
        List<Pattern> patterns = new ArrayList<>();
        List<SeriesData> series = new ArrayList<>();
        int from = 0;
        while (from < passes.size()) {
            int to = from + 1;
            while (to < passes.size()
                    && passes.get(to).series().equals(passes.get(from).series())) {
                to++;
            }
            StringBuilder key = new StringBuilder();
            double[] y = new double[to - from];
            for (int i = from; i < to; i++) {
                y[i - from] = passes.get(i).errorMm();
                key.append(passes.get(i).direction() > 0 ? '+' : '-')
                        .append(i > from && block.sharesReading(i) ? '&' : ' ');
            }
            Pattern pattern = known.get(key.toString());
            if (pattern == null) {
                pattern = new Pattern(block, from, to, columns, readingVarianceMm2);
                known.put(key.toString(), pattern);
                patterns.add(pattern);
            }
            series.add(new SeriesData(y, pattern));
            from = to;
        }
        return new ConditionLikelihood(columns, patterns, series);
    }

    /** Adds this condition's restricted log likelihood, gradient and expected information at the components theta. */
    void addTo(Score out, double[] theta) {
        for (Pattern pattern : patterns) {
            if (!pattern.prepare(theta)) {
                out.logLikelihood = Double.NEGATIVE_INFINITY;
                return;
            }
        }
        RealMatrix gram = MatrixUtils.createRealMatrix(columns, columns);
        double[] right = new double[columns];
        for (SeriesData one : series) {
            gram = gram.add(one.pattern.gram);
            double[] weighted = one.pattern.inverse.operate(one.y);
            for (int i = 0; i < one.y.length; i++) {
                right[one.pattern.column[i]] += weighted[i];
            }
            out.logLikelihood -= 0.5 * one.pattern.logDeterminant;
        }
        CholeskyDecomposition factor = new CholeskyDecomposition(gram, 1e-6, 0);
        RealMatrix inverse = factor.getSolver().getInverse();
        double[] mean = inverse.operate(right);
        out.logLikelihood -= 0.5 * logDeterminant(factor);
        RealMatrix[] inner = new RealMatrix[COMPONENTS];
        for (int c = 0; c < COMPONENTS; c++) {
            inner[c] = MatrixUtils.createRealMatrix(columns, columns);
        }
        for (SeriesData one : series) {
            Pattern pattern = one.pattern;
            double[] residual = one.y.clone();
            for (int i = 0; i < residual.length; i++) {
                residual[i] -= mean[pattern.column[i]];
            }
            double[] u = pattern.inverse.operate(residual);
            for (int i = 0; i < u.length; i++) {
                out.logLikelihood -= 0.5 * residual[i] * u[i];
            }
            for (int c = 0; c < COMPONENTS; c++) {
                double[] ku = pattern.covariance[c].operate(u);
                for (int i = 0; i < u.length; i++) {
                    out.gradient[c] += 0.5 * u[i] * ku[i];
                }
                out.gradient[c] -= 0.5 * pattern.trace[c];
                inner[c] = inner[c].add(pattern.inner[c]);
                for (int d = 0; d < COMPONENTS; d++) {
                    out.information[c][d] += 0.5 * pattern.traceOfTwo[c][d]
                            - inverse.multiply(pattern.innerOfTwo[c][d]).getTrace();
                }
            }
        }
        for (int c = 0; c < COMPONENTS; c++) {
            RealMatrix own = inverse.multiply(inner[c]);
            out.gradient[c] += 0.5 * own.getTrace();
            for (int d = 0; d < COMPONENTS; d++) {
                out.information[c][d] +=
                        0.5 * own.multiply(inverse.multiply(inner[d])).getTrace();
            }
        }
    }

    private static double logDeterminant(CholeskyDecomposition factor) {
        RealMatrix lower = factor.getL();
        double sum = 0;
        for (int i = 0; i < lower.getRowDimension(); i++) {
            sum += 2 * Math.log(lower.getEntry(i, i));
        }
        return sum;
    }

    /** Restricted log likelihood, gradient and expected information. */
    static final class Score {
        double logLikelihood;
        final double[] gradient = new double[COMPONENTS];
        final double[][] information = new double[COMPONENTS][COMPONENTS];
    }

    private static final class SeriesData {
        final double[] y;
        final Pattern pattern;

        SeriesData(double[] y, Pattern pattern) {
            this.y = y;
            this.pattern = pattern;
        }
    }

    /** Directions and shared readings of a series, and the matrices they make at the current components. */
    private static final class Pattern {
        final int n;
        final int[] column;
        final RealMatrix fixed;
        final RealMatrix readings;
        final RealMatrix[] covariance = new RealMatrix[COMPONENTS];
        RealMatrix inverse;
        RealMatrix gram;
        double logDeterminant;
        final double[] trace = new double[COMPONENTS];
        final double[][] traceOfTwo = new double[COMPONENTS][COMPONENTS];
        final RealMatrix[] inner = new RealMatrix[COMPONENTS];
        final RealMatrix[][] innerOfTwo = new RealMatrix[COMPONENTS][COMPONENTS];

        Pattern(ConditionBlock block, int from, int to, int columns, double readingVariance) {
            n = to - from;
            column = new int[n];
            fixed = MatrixUtils.createRealMatrix(n, columns);
            readings = MatrixUtils.createRealMatrix(n, n);
            for (int c = 0; c < COMPONENTS; c++) {
                covariance[c] = MatrixUtils.createRealMatrix(n, n);
            }
            for (int i = 0; i < n; i++) {
                PassError pass = block.passes().get(from + i);
                column[i] = columns == 2 && pass.direction() < 0 ? 1 : 0;
                fixed.setEntry(i, column[i], 1);
                covariance[0].setEntry(i, i, block.starts());
                covariance[1].setEntry(i, i, block.meanTravelMm() / 1000);
                readings.setEntry(i, i, 2 * readingVariance);
                if (i > 0 && block.sharesReading(from + i)) {
                    double shared =
                            -pass.direction() * block.passes().get(from + i - 1).direction() * readingVariance;
                    readings.setEntry(i, i - 1, shared);
                    readings.setEntry(i - 1, i, shared);
                }
                for (int j = 0; j < n; j++) {
                    covariance[2].setEntry(i, j, 1);
                }
            }
            inverse = readings;
            gram = readings;
        }

        /** Returns false when there is no variance at all. */
        boolean prepare(double[] theta) {
            RealMatrix sum = readings.copy();
            for (int c = 0; c < COMPONENTS; c++) {
                if (theta[c] > 0) {
                    sum = sum.add(covariance[c].scalarMultiply(theta[c]));
                }
            }
            double scale = sum.getTrace() / n;
            if (!(scale > 0)) {
                return false;
            }
            for (int i = 0; i < n; i++) {
                sum.addToEntry(i, i, 1e-10 * scale);
            }
            CholeskyDecomposition factor = new CholeskyDecomposition(sum, 1e-6, 0);
            inverse = factor.getSolver().getInverse();
            logDeterminant = ConditionLikelihood.logDeterminant(factor);
            RealMatrix weighted = inverse.multiply(fixed);
            gram = fixed.transposeMultiply(weighted);
            RealMatrix[] product = new RealMatrix[COMPONENTS];
            for (int c = 0; c < COMPONENTS; c++) {
                product[c] = inverse.multiply(covariance[c]);
                trace[c] = product[c].getTrace();
                inner[c] = weighted.transposeMultiply(covariance[c].multiply(weighted));
            }
            for (int c = 0; c < COMPONENTS; c++) {
                for (int d = 0; d < COMPONENTS; d++) {
                    double both = 0;
                    for (int i = 0; i < n; i++) {
                        for (int j = 0; j < n; j++) {
                            both += product[c].getEntry(i, j) * product[d].getEntry(j, i);
                        }
                    }
                    traceOfTwo[c][d] = both;
                    innerOfTwo[c][d] =
                            weighted.transposeMultiply(covariance[c].multiply(product[d].multiply(weighted)));
                }
            }
            return true;
        }
    }
}
