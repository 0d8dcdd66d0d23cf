package slowproof.trial.clock;

import java.util.Arrays;
import java.util.List;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.Recording;

/**
 * The reference's motion between its samples, within stretches without breaks: cubic pieces through positions and
 * slopes (Hermite). Dense noisy samples are first smoothed by local parabolas over 10 ms (the least-squares filter of
 * Savitzky and Golay, here for times of any spacing), which changes nothing in a ramp of even acceleration.
 *
 * <p>Where the acceleration changes between samples the cubic is wrong by up to a sixteenth of the third difference;
 * that much is reported with each position so that the estimate can trust the place less.
 */
final class ReferenceTrack {
    private static final double HALF_WINDOW_S = 0.005;

    /** Fewer samples in the window than this are left as they are. */
    private static final int FEWEST = 5;

    private final double[] time;
    private final double[] position;
    private final double[] speed;
    private final boolean[] broken;

    /** Running result of the last {@link #at}, to spare an object per call. */
    private double positionMm;

    private double speedMmPerS;
    private double errorMm;
    private int cell;
    private double share;

    ReferenceTrack(Recording recording) {
        time = recording.timeS().toArray();
        position = recording.referenceMm().toArray();
        speed = new double[time.length];
        broken = new boolean[time.length];
        for (Break place : recording.breaks()) {
            broken[place.row()] = true;
        }
        int from = 0;
        for (int i = 1; i <= time.length; i++) {
            if (i == time.length || broken[i]) {
                prepare(from, i);
                from = i;
            }
        }
    }

    private void prepare(int from, int to) {
        double[] raw = Arrays.copyOfRange(position, from, to);
        int low = from;
        int high = from;
        for (int i = from; i < to; i++) {
            while (time[i] - time[low] > HALF_WINDOW_S) {
                low++;
            }
            while (high + 1 < to && time[high + 1] - time[i] <= HALF_WINDOW_S) {
                high++;
            }
            if (high - low + 1 >= FEWEST && low > from && high + 1 < to) {
                parabola(i, low, high, raw, from);
            } else {
                speed[i] = slope(raw, from, to, i);
            }
        }
    }

    /** Slope of the parabola through three neighbours; one-sided at the ends. */
    private double slope(double[] raw, int from, int to, int i) {
        if (to - from == 1) {
            return 0;
        }
        if (i == from) {
            return (raw[1] - raw[0]) / (time[from + 1] - time[from]);
        }
        double before = (raw[i - from] - raw[i - from - 1]) / (time[i] - time[i - 1]);
        if (i == to - 1) {
            return before;
        }
        double after = (raw[i - from + 1] - raw[i - from]) / (time[i + 1] - time[i]);
        double left = time[i] - time[i - 1];
        double right = time[i + 1] - time[i];
        return (before * right + after * left) / (left + right);
    }

    /** Fits a parabola about sample {@code i}; its value and slope there replace the sample. */
    private void parabola(int i, int low, int high, double[] raw, int from) {
        double s1 = 0;
        double s2 = 0;
        double s3 = 0;
        double s4 = 0;
        double y0 = 0;
        double y1 = 0;
        double y2 = 0;
        double origin = raw[i - from];
        for (int k = low; k <= high; k++) {
            double t = (time[k] - time[i]) / HALF_WINDOW_S;
            double y = raw[k - from] - origin;
            double tt = t * t;
            s1 += t;
            s2 += tt;
            s3 += tt * t;
            s4 += tt * tt;
            y0 += y;
            y1 += y * t;
            y2 += y * tt;
        }
        double n = high - low + 1;
        // normal equations of y = a + b t + c t^2, solved by Cramer's rule
        double det = n * (s2 * s4 - s3 * s3) - s1 * (s1 * s4 - s2 * s3) + s2 * (s1 * s3 - s2 * s2);
        double a = y0 * (s2 * s4 - s3 * s3) - s1 * (y1 * s4 - y2 * s3) + s2 * (y1 * s3 - y2 * s2);
        double b = n * (y1 * s4 - y2 * s3) - y0 * (s1 * s4 - s2 * s3) + s2 * (s1 * y2 - s2 * y1);
        if (!(Math.abs(det) > 1e-9 * n * n * n)) {
            speed[i] = slope(raw, from, from + raw.length, i);
            return;
        }
        position[i] = origin + a / det;
        speed[i] = b / det / HALF_WINDOW_S;
    }

    /** Moves to a time; returns false outside the record and where samples are missing. */
    boolean at(double timeS) {
        // times nearly always go on from the last one
        if (!(cell < time.length - 1 && timeS >= time[cell] && timeS <= time[cell + 1])) {
            int found = Arrays.binarySearch(time, timeS);
            cell = found >= 0 ? Math.min(found, time.length - 2) : -found - 2;
            if (cell < 0 || cell >= time.length - 1) {
                cell = 0;
                return false;
            }
        }
        if (broken[cell + 1]) {
            return false;
        }
        double width = time[cell + 1] - time[cell];
        double u = (timeS - time[cell]) / width;
        share = u;
        double step = position[cell + 1] - position[cell];
        double leave = speed[cell] * width;
        double arrive = speed[cell + 1] * width;
        double square = 3 * step - 2 * leave - arrive;
        double cube = leave + arrive - 2 * step;
        positionMm = position[cell] + u * (leave + u * (square + u * cube));
        // the cubic's own slope would amplify what noise is left between neighbours
        speedMmPerS = speed[cell] + u * (speed[cell + 1] - speed[cell]);
        errorMm = thirdDifference() / 16;
        return true;
    }

    private double thirdDifference() {
        if (cell == 0 || cell + 2 >= time.length || broken[cell] || broken[cell + 2]) {
            return 0;
        }
        double width = time[cell + 1] - time[cell];
        double middle = (position[cell + 1] - position[cell]) / width;
        double before = (position[cell] - position[cell - 1]) / (time[cell] - time[cell - 1]);
        double after = (position[cell + 2] - position[cell + 1]) / (time[cell + 2] - time[cell + 1]);
        return Math.abs((after - middle) - (middle - before)) * width;
    }

    double positionMm() {
        return positionMm;
    }

    double speedMmPerS() {
        return speedMmPerS;
    }

    /** Returns by how much the position may be wrong between samples, in mm. */
    double errorMm() {
        return errorMm;
    }

    /** Returns the sample before the time moved to. */
    int cell() {
        return cell;
    }

    /** Returns how far between that sample and the next, 0 to 1. */
    double share() {
        return share;
    }

    /** Returns the standard deviation of the speed outside the given moves, in mm/s; a median, so short stirrings do not matter. */
    double speedNoiseMmPerS(List<Blocks.Move> moves) {
        double[] resting = new double[time.length];
        int count = 0;
        int next = 0;
        for (int i = 0; i < time.length; i++) {
            while (next < moves.size() && time[i] > moves.get(next).endS()) {
                next++;
            }
            if (next == moves.size() || time[i] < moves.get(next).startS()) {
                resting[count++] = Math.abs(speed[i]);
            }
        }
        if (count == 0) {
            return 0;
        }
        double[] sorted = Arrays.copyOf(resting, count);
        Arrays.sort(sorted);
        // 1.4826 = 1 / Phi^-1(3/4): makes the median of absolute values a standard deviation for normal noise
        return 1.4826 * sorted[count / 2];
    }

    int size() {
        return time.length;
    }

    double timeS(int sample) {
        return time[sample];
    }

    double positionMm(int sample) {
        return position[sample];
    }

    /** Returns true when the sample does not follow on the one before. */
    boolean broken(int sample) {
        return broken[sample];
    }
}
