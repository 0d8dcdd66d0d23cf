package slowproof.metrology.sampling;

import java.util.List;
import java.util.function.ToDoubleFunction;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/** A ratio of sums over blocks, with the interval that leaving out one block at a time gives (jackknife). */
record RatioEstimate(double value, Interval interval) {

    /** The ratio of a sum to the variance; 0 when there is no variance. */
    static RatioEstimate of(List<SobolSums> blocks, ToDoubleFunction<SobolSums> numerator, double confidence) {
        int n = blocks.size();
        double above = blocks.stream().mapToDouble(numerator).sum();
        double below = blocks.stream().mapToDouble(SobolSums::variance).sum();
        if (below == 0) {
            return new RatioEstimate(0, new Interval(0, 0));
        }
        double[] pseudo = new double[n];
        for (int b = 0; b < n; b++) {
            SobolSums left = blocks.get(b);
            double without = (above - numerator.applyAsDouble(left)) / (below - left.variance());
            pseudo[b] = n * (above / below) - (n - 1) * without;
        }
        Moments moments = Moments.of(pseudo);
        double t = Distributions.studentQuantile((1 + confidence) / 2, n - 1.0);
        double half = t * moments.standardDeviation() / Math.sqrt(n);
        return new RatioEstimate(moments.mean(), new Interval(moments.mean() - half, moments.mean() + half));
    }
}
