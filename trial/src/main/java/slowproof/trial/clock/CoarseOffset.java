package slowproof.trial.clock;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.Recording;

/**
 * Where one log lies in the other, roughly: the lag at which the products of both speeds add up to most. First on a
 * wide grid over all lags, then on a fine one about the best.
 *
 * @param offsetS t_ref - t_sensor in s
 * @param stepS width of the fine grid in s; the offset is good to about that
 * @param factor -1 when the sensor counts against the reference, else 1; times a unit's ratio when both are far from equal
 * @param unexplained share of both motions' squares that the best lag leaves over, 0 for a perfect fit
 * @param runnerUp the same for the best lag elsewhere
 */
record CoarseOffset(double offsetS, double stepS, double factor, double unexplained, double runnerUp) {
    private static final int CELLS = 3000;
    private static final int FEWEST_CELLS = 300;
    private static final int FINE_CELLS = 200_000;
    private static final double FINEST_S = 0.002;

    /** Returns the rough offset, or null when one of the logs hardly moves. */
    static @Nullable CoarseOffset find(Recording sensor, Recording reference) {
        Column sensorTime = sensor.timeS();
        Column referenceTime = reference.timeS();
        double sensorLength = sensorTime.at(sensorTime.size() - 1) - sensorTime.at(0);
        double referenceLength = referenceTime.at(referenceTime.size() - 1) - referenceTime.at(0);
        if (!(sensorLength > 0) || !(referenceLength > 0)) {
            return null;
        }
        double longest = Math.max(sensorLength, referenceLength);
        double rows = 2 * Math.max(sensor.intervalS(), reference.intervalS());
        double wide = Math.max(longest / CELLS, Math.max(0.02, rows));
        wide = Math.max(wide, Math.min(countsS(sensor, sensorLength), longest / FEWEST_CELLS));
        double[] indicated = speeds(sensor, sensor.indicationMm(), sensorTime.at(0), wide, sensorLength);
        double[] referred = speeds(reference, reference.referenceMm(), referenceTime.at(0), wide, referenceLength);
        double total = squares(indicated);
        double other = squares(referred);
        if (!(total > 0) || !(other > 0)) {
            return null;
        }
        double[] sums = new double[indicated.length + referred.length - 1];
        int best = 0;
        for (int k = 0; k < sums.length; k++) {
            sums[k] = products(indicated, referred, k - indicated.length + 1);
            if (Math.abs(sums[k]) > Math.abs(sums[best])) {
                best = k;
            }
        }
        double geometric = Math.sqrt(total * other);
        double unexplained = 1 - Math.abs(sums[best]) / geometric;
        double ratio = Math.sqrt(total / other);
        double factor = Math.signum(sums[best]) * (ratio > 0.8 && ratio < 1.25 ? 1 : 1 / ratio);
        double runnerUp = 1 - elsewhere(sums, best) / geometric;
        double rough = referenceTime.at(0) - sensorTime.at(0) + (best - indicated.length + 1) * wide;
        double fine = Math.max(Math.max(FINEST_S, rows), longest / FINE_CELLS);
        double offset = refine(sensor, reference, rough, wide, fine, Math.signum(factor));
        return new CoarseOffset(offset, fine, factor, unexplained, runnerUp);
    }

    /** Returns the time in which some counts pass on average, so that their rounding does not drown the speed. */
    private static double countsS(Recording sensor, double length) {
        if (Double.isNaN(sensor.countMm())) {
            return 0;
        }
        double path = 0;
        for (int i = 1; i < sensor.size(); i++) {
            path += Math.abs(sensor.indicationMm().at(i) - sensor.indicationMm().at(i - 1));
        }
        return path > 0 ? 5 * sensor.countMm() * length / path : 0;
    }

    /** Returns the largest sum on another hill than the best: beyond the first place where the sums fall below half. */
    private static double elsewhere(double[] sums, int best) {
        double half = Math.abs(sums[best]) / 2;
        int left = best;
        while (left >= 0 && Math.abs(sums[left]) > half) {
            left--;
        }
        int right = best;
        while (right < sums.length && Math.abs(sums[right]) > half) {
            right++;
        }
        double most = 0;
        for (int k = 0; k < sums.length; k++) {
            if (k < left || k > right) {
                most = Math.max(most, Math.abs(sums[k]));
            }
        }
        return most;
    }

    private static double refine(
            Recording sensor, Recording reference, double rough, double wide, double fine, double sense) {
        int reach = (int) Math.ceil(1.5 * wide / fine);
        Column time = sensor.timeS();
        double from = time.at(0);
        double length = time.at(time.size() - 1) - from;
        double[] indicated = speeds(sensor, sensor.indicationMm(), from, fine, length);
        double start = from + rough - reach * fine;
        double[] referred = speeds(reference, reference.referenceMm(), start, fine, length + (2 * reach + 1) * fine);
        double[] sums = new double[2 * reach + 1];
        int best = 0;
        for (int k = 0; k < sums.length; k++) {
            sums[k] = sense * products(indicated, referred, k);
            if (sums[k] > sums[best]) {
                best = k;
            }
        }
        double between = 0;
        if (best > 0 && best < sums.length - 1) {
            double bend = sums[best - 1] - 2 * sums[best] + sums[best + 1];
            between = bend < 0 ? 0.5 * (sums[best - 1] - sums[best + 1]) / bend : 0;
        }
        return rough + (best - reach + between) * fine;
    }

    private static double products(double[] indicated, double[] referred, int lag) {
        double sum = 0;
        int from = Math.max(0, -lag);
        int to = Math.min(indicated.length, referred.length - lag);
        for (int i = from; i < to; i++) {
            sum += indicated[i] * referred[i + lag];
        }
        return sum;
    }

    private static double squares(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value * value;
        }
        return sum;
    }

    /** Returns mean speeds on a grid; 0 where samples are missing, so that such places say nothing. */
    private static double[] speeds(Recording recording, Column positions, double from, double step, double length) {
        Column times = recording.timeS();
        boolean[] broken = new boolean[times.size()];
        for (Break place : recording.breaks()) {
            broken[place.row()] = true;
        }
        int cells = (int) Math.ceil(length / step);
        double[] nodes = new double[cells + 1];
        Arrays.fill(nodes, Double.NaN);
        int row = 0;
        for (int k = 0; k <= cells; k++) {
            double t = from + k * step;
            while (row + 1 < times.size() && times.at(row + 1) < t) {
                row++;
            }
            if (row + 1 < times.size() && t >= times.at(row) && t <= times.at(row + 1) && !broken[row + 1]) {
                double share = (t - times.at(row)) / (times.at(row + 1) - times.at(row));
                nodes[k] = positions.at(row) + share * (positions.at(row + 1) - positions.at(row));
            }
        }
        double[] speeds = new double[cells];
        for (int k = 0; k < cells; k++) {
            double speed = (nodes[k + 1] - nodes[k]) / step;
            speeds[k] = Double.isNaN(speed) ? 0 : speed;
        }
        return speeds;
    }
}
