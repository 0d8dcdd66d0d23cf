package slowproof.trial.recording;

import java.util.Arrays;

/**
 * How much a position scatters while at rest, from the recording itself.
 *
 * <p>The recording is cut in windows of the dwell time. In each a straight line is fitted; a window in which the
 * line rises by no more than some residual standard deviations is not clearly moving. Of these the quietest and
 * those up to five times as noisy count as rest: a short way to and fro is not clearly moving either, but far noisier.
 */
final class RestNoise {
    private static final double CLEARLY_MOVING = 10;
    private static final double AS_QUIET = 5;

    private RestNoise() {}

    /** Returns the standard deviation at rest in mm, 0 when it is below the steps or when nothing is at rest. */
    static double standardDeviationMm(Recording recording, Column position, double windowS, double stepMm) {
        double[] quiet = new double[64];
        int count = 0;
        double quietest = Double.POSITIVE_INFINITY;
        for (Window window : Window.stillestFirst(recording, position, windowS)) {
            double widest = widest(Math.max(AS_QUIET * quietest, stepMm), stepMm, window.rows());
            if (window.leastSpanMm() > widest) {
                continue;
            }
            double residual = residualIfResting(recording.timeS(), position, window.from(), window.to(), stepMm);
            if (!Double.isNaN(residual)) {
                if (count == quiet.length) {
                    quiet = Arrays.copyOf(quiet, 2 * count);
                }
                quiet[count++] = residual;
                quietest = Math.min(quietest, residual);
            }
        }
        if (count == 0) {
            return 0;
        }
        Arrays.sort(quiet, 0, count);
        double limit = Math.max(AS_QUIET * quiet[0], stepMm);
        int kept = 0;
        while (kept < count && quiet[kept] <= limit) {
            kept++;
        }
        return Select.quantile(quiet, kept, 0.9);
    }

    /** Returns how far the positions of a window lie apart at most whose residual is no more than a limit and which is not clearly moving. */
    private static double widest(double limitMm, double stepMm, int rows) {
        return Math.max(CLEARLY_MOVING * limitMm, 1.01 * stepMm) + 2 * Math.sqrt(rows) * limitMm;
    }

    private static double residualIfResting(Column time, Column position, int from, int to, double stepMm) {
        int n = to - from;
        double meanT = 0;
        double meanX = 0;
        for (int i = from; i < to; i++) {
            meanT += time.get(i) - time.get(from);
            meanX += position.get(i) - position.get(from);
        }
        meanT /= n;
        meanX /= n;
        double tt = 0;
        double tx = 0;
        double xx = 0;
        for (int i = from; i < to; i++) {
            double t = time.get(i) - time.get(from) - meanT;
            double x = position.get(i) - position.get(from) - meanX;
            tt += t * t;
            tx += t * x;
            xx += x * x;
        }
        double residual = Math.sqrt(Math.max(xx - tx * tx / tt, 0) / (n - 2));
        double rise = Math.abs(tx / tt) * (time.get(to - 1) - time.get(from));
        return rise <= Math.max(CLEARLY_MOVING * residual, 1.01 * stepMm) ? residual : Double.NaN;
    }
}
