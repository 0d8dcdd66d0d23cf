package slowproof.trial.line;

import java.util.Arrays;
import slowproof.trial.line.LineNotPossibleException.Why;

/**
 * A logged speed made fit for a forecast: noise of the tachometer smoothed, standstill told from noise, and the distance
 * kept. Noise matters because it would count travel at speeds that the line never ran, and starts that it
 * never made.
 *
 * <p>The smoothed speed is a moving average of the trapezoidal travel, over as many samples as bring the noise down to
 * 0.3 % of the top speed, at most 0.1 s to either side. Standstill: smoothed speed below three standard
 * deviations of what noise is left, and at least below 0.5 % of the top speed, for 0.1 s; within it
 * the speed is set to 0. At the end all speeds are multiplied by one factor so that the net travel is that of the log.
 */
public final class SpeedLog {
    private static final double NOISE_SHARE = 0.003;
    private static final double REST_SHARE = 0.005;
    private static final double HALF_WINDOW_S = 0.1;
    private static final double LEAST_REST_S = 0.1;
    // 1.4826 = 1 / Phi^-1(3/4) makes the median absolute deviation consistent for normal noise; sqrt 6 is that of a
    // second difference
    private static final double SECOND_DIFFERENCE_TO_DEVIATION = 1.4826 / Math.sqrt(6);

    private SpeedLog() {}

    /**
     * A log made fit.
     *
     * @param profile the profile
     * @param noiseMmPerS standard deviation of the noise of one speed in mm/s
     * @param windowS how long a stretch the moving average takes in s, 0 where nothing was smoothed
     * @param restBelowMmPerS speed in mm/s below which a stretch counts as standstill, 0 where only 0 does
     * @param factor factor on all speeds that keeps the distance
     */
    public record Smoothed(
            LineProfile profile, double noiseMmPerS, double windowS, double restBelowMmPerS, double factor) {}

    /**
     * Makes a log fit.
     *
     * @param timeS times in s, strictly ascending, at least 3
     * @param speedMmPerS speeds in mm/s, signed
     * @throws IllegalArgumentException if arrays differ in length, are too short or a value is not finite
     * @throws LineNotPossibleException if the line never moves
     */
    public static Smoothed smoothed(double[] timeS, double[] speedMmPerS) {
        LineProfile raw = LineProfile.of(timeS, speedMmPerS);
        int n = timeS.length;
        double top = Arrays.stream(speedMmPerS).map(Math::abs).max().orElse(0);
        if (n < 3 || !(top > 0) || raw.netTravelMm() == 0) {
            throw new LineNotPossibleException(Why.LINE_LOG_AT_REST, -1);
        }
        double noise = noise(speedMmPerS);
        double interval = (timeS[n - 1] - timeS[0]) / (n - 1);
        double wanted = noise / (NOISE_SHARE * top);
        int half = (int) Math.max(0, Math.min(HALF_WINDOW_S / interval, Math.ceil((wanted * wanted - 1) / 2)));
        double[] smooth = half < 1 ? speedMmPerS.clone() : average(raw, half);
        double left = noise / Math.sqrt(2.0 * half + 1);
        double threshold = noise == 0 ? 0 : Math.max(3 * left, REST_SHARE * top);
        rest(timeS, smooth, threshold);
        LineProfile profile = LineProfile.of(timeS, smooth);
        double factor = raw.netTravelMm() / profile.netTravelMm();
        return profile.netTravelMm() == 0 || !(factor > 0)
                ? new Smoothed(raw, noise, 0, 0, 1)
                : new Smoothed(profile.scaled(factor), noise, 2 * half * interval, threshold, factor);
    }

    private static double noise(double[] speed) {
        double[] second = new double[speed.length - 2];
        for (int i = 0; i < second.length; i++) {
            second[i] = Math.abs(speed[i] - 2 * speed[i + 1] + speed[i + 2]);
        }
        Arrays.sort(second);
        return SECOND_DIFFERENCE_TO_DEVIATION * second[second.length / 2];
    }

    private static double[] average(LineProfile raw, int half) {
        int n = raw.size();
        double[] smooth = new double[n];
        for (int i = 0; i < n; i++) {
            int reach = Math.min(half, Math.min(i, n - 1 - i));
            int low = i - reach;
            int high = i + reach;
            smooth[i] = reach == 0
                    ? raw.speedMmPerS(i)
                    : (raw.positionMm(high) - raw.positionMm(low)) / (raw.timeS(high) - raw.timeS(low));
        }
        return smooth;
    }

    private static void rest(double[] timeS, double[] speed, double threshold) {
        int from = 0;
        while (from < speed.length) {
            if (Math.abs(speed[from]) > threshold) {
                from++;
                continue;
            }
            int to = from;
            while (to + 1 < speed.length && Math.abs(speed[to + 1]) <= threshold) {
                to++;
            }
            boolean atEnd = from == 0 || to == speed.length - 1;
            if (atEnd || timeS[to] - timeS[from] >= LEAST_REST_S) {
                Arrays.fill(speed, from, to + 1, 0);
            }
            from = to + 1;
        }
    }
}
