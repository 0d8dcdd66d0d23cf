package slowproof.trial.line;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Speed over time of a line, straight between samples. Immutable.
 *
 * <p>S-shaped ramps are straight pieces too, fine enough (see {@link CycleMotion}) that the travel at each
 * speed is kept to about 1e-4 of the ramp's travel, and their whole travel exactly.
 */
public final class LineProfile {
    private static final double SAME_PLACE_MM = 1e-6;
    private static final double WHOLE_MM = 0.002;

    private final double[] timeS;
    private final double[] speedMmPerS;
    private final double[] positionMm;

    private LineProfile(double[] timeS, double[] speedMmPerS) {
        this.timeS = timeS;
        this.speedMmPerS = speedMmPerS;
        positionMm = new double[timeS.length];
        for (int i = 1; i < timeS.length; i++) {
            positionMm[i] = positionMm[i - 1] + 0.5 * (speedMmPerS[i - 1] + speedMmPerS[i]) * (timeS[i] - timeS[i - 1]);
        }
    }

    /**
     * Returns the profile of samples.
     *
     * @param timeS times in s, ascending, at least two; equal neighbours are allowed where the speed jumps
     * @param speedMmPerS speeds in mm/s, signed
     * @throws IllegalArgumentException if lengths differ, a time goes back or a value is not finite
     */
    public static LineProfile of(double[] timeS, double[] speedMmPerS) {
        if (timeS.length != speedMmPerS.length || timeS.length < 2) {
            throw new IllegalArgumentException(
                    "as many times as speeds are needed, at least two: " + timeS.length + " and " + speedMmPerS.length);
        }
        for (int i = 0; i < timeS.length; i++) {
            boolean ascends = i == 0 || timeS[i] >= timeS[i - 1];
            if (!ascends || !Double.isFinite(timeS[i]) || !Double.isFinite(speedMmPerS[i])) {
                throw new IllegalArgumentException("sample " + i + " is not finite or goes back in time");
            }
        }
        return new LineProfile(timeS.clone(), speedMmPerS.clone());
    }

    /** Returns the number of samples. */
    public int size() {
        return timeS.length;
    }

    /** Returns the time of sample {@code i} in s. */
    public double timeS(int i) {
        return timeS[i];
    }

    /** Returns the signed speed at sample {@code i} in mm/s. */
    public double speedMmPerS(int i) {
        return speedMmPerS[i];
    }

    /** Returns the net travel up to sample {@code i} in mm. */
    public double positionMm(int i) {
        return positionMm[i];
    }

    /** Returns the net travel of the whole profile in mm. */
    public double netTravelMm() {
        return positionMm[positionMm.length - 1];
    }

    /** Returns the duration in s. */
    public double durationS() {
        return timeS[timeS.length - 1] - timeS[0];
    }

    /**
     * Returns the same times with all speeds, and so all distances, multiplied.
     *
     * @param factor above zero
     */
    public LineProfile scaled(double factor) {
        return new LineProfile(
                timeS, Arrays.stream(speedMmPerS).map(v -> factor * v).toArray());
    }

    /**
     * Cuts the profile where its net travel first reaches each multiple of a length; where it makes whole pieces, the
     * last one ends with it.
     *
     * @param lengthMm length of a piece in mm, above zero
     * @return the whole pieces in order, possibly none; what is left at the end belongs to none. A stop at a cut
     *     belongs to the piece before it
     * @throws LineNotPossibleException if the line runs backwards where it is cut
     */
    public List<PieceMotion> cut(double lengthMm) {
        List<PieceMotion> pieces = new ArrayList<>();
        int from = 0;
        double fromTime = timeS[0];
        double fromSpeed = speedMmPerS[0];
        int i = 0;
        while (true) {
            double target = (pieces.size() + 1) * lengthMm;
            int whole = timeS.length - 1;
            if (from < whole && Math.abs(positionMm[whole] - target) <= WHOLE_MM) {
                pieces.add(stretch(from, fromTime, fromSpeed, whole, timeS[whole], speedMmPerS[whole]));
                return List.copyOf(pieces);
            }
            int at = i;
            while (at + 1 < timeS.length && !(positionMm[at + 1] >= target - SAME_PLACE_MM)) {
                at++;
            }
            if (at + 1 >= timeS.length) {
                return List.copyOf(pieces);
            }
            double end = timeAt(at, target);
            double speed = speedWithin(at, end);
            int last = at;
            // a standstill that begins at the cut still belongs to the piece
            while (last + 1 < timeS.length
                    && speedMmPerS[last + 1] == 0
                    && Math.abs(positionMm[last + 1] - target) <= SAME_PLACE_MM) {
                last++;
                end = timeS[last];
                speed = 0;
            }
            if (speed < 0) {
                throw new LineNotPossibleException(LineNotPossibleException.Why.LINE_CUT_BACKWARDS, -1);
            }
            pieces.add(stretch(from, fromTime, fromSpeed, last, end, speed));
            from = last;
            fromTime = end;
            fromSpeed = speed;
            i = last;
        }
    }

    private PieceMotion stretch(int from, double fromTime, double fromSpeed, int last, double end, double endSpeed) {
        List<double[]> samples = new ArrayList<>();
        samples.add(new double[] {fromTime, fromSpeed});
        for (int i = from + 1; i <= last; i++) {
            if (timeS[i] >= fromTime && timeS[i] <= end) {
                samples.add(new double[] {timeS[i], speedMmPerS[i]});
            }
        }
        samples.add(new double[] {end, endSpeed});
        return PieceMotion.of(
                samples.stream().mapToDouble(s -> s[0]).toArray(),
                samples.stream().mapToDouble(s -> s[1]).toArray());
    }

    /** Returns when the position is reached between samples at and at + 1. */
    private double timeAt(int at, double target) {
        double step = timeS[at + 1] - timeS[at];
        double rest = target - positionMm[at];
        if (positionMm[at + 1] - target <= SAME_PLACE_MM || step == 0) {
            return timeS[at + 1];
        }
        double v = speedMmPerS[at];
        double a = (speedMmPerS[at + 1] - v) / step;
        // rest = v t + a t^2 / 2, in the form that does not cancel
        double root = Math.sqrt(Math.max(0, v * v + 2 * a * rest));
        double time = v + root > 0 ? 2 * rest / (v + root) : 0;
        return timeS[at] + Math.min(step, Math.max(0, time));
    }

    private double speedWithin(int at, double time) {
        double step = timeS[at + 1] - timeS[at];
        double share = step == 0 ? 1 : (time - timeS[at]) / step;
        return speedMmPerS[at] + share * (speedMmPerS[at + 1] - speedMmPerS[at]);
    }
}
