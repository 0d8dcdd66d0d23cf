package slowproof.trial.spectrum;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;

/**
 * The travel spectrum of a motion: how much distance it spends at each speed, direction left aside. The
 * error of a length is the error curve weighted with it, E = integral of eps(|v|) dL.
 *
 * <p>Held as parts. A part spreads a distance over the speeds between two ends with a density proportional
 * to v, which is what a constant acceleration a does: dL = v dv / a, so the distance below v0 is
 * v0^2/(2a). A part with equal ends is travel at one speed. Trapezoid and triangular moves, ramps and holds
 * are therefore exact, and a log of time and speed is exact for speeds that are straight lines between the
 * samples.
 *
 * <p>Immutable. Sums join the parts; equal neighbours of a sum are merged, so that twelve equal moves cost no
 * more than one.
 */
public final class TravelSpectrum {
    private static final TravelSpectrum NONE = new TravelSpectrum(new double[0], new double[0], new double[0]);

    // narrower parts (relative width) are integrated by quadrature: the closed form loses digits to cancellation
    private static final double NARROW = 1e-3;
    private static final double GAUSS_NODE = Math.sqrt(0.6);

    private final double[] low;
    private final double[] high;
    private final double[] distance;

    private TravelSpectrum(double[] low, double[] high, double[] distance) {
        this.low = low;
        this.high = high;
        this.distance = distance;
    }

    /** Returns the spectrum of no travel at all. */
    public static TravelSpectrum none() {
        return NONE;
    }

    /**
     * Returns travel at one speed.
     *
     * @param speedMmPerS speed, greater than 0
     * @param distanceMm distance, at least 0
     * @throws IllegalArgumentException if a value is out of its range or not finite
     */
    public static TravelSpectrum atSpeed(double speedMmPerS, double distanceMm) {
        requirePositive(speedMmPerS, "speed", "mm/s");
        requireNotNegative(distanceMm, "distance", "mm");
        return distanceMm == 0
                ? NONE
                : new TravelSpectrum(new double[] {speedMmPerS}, new double[] {speedMmPerS}, new double[] {distanceMm});
    }

    /**
     * Returns one ramp at constant acceleration: the distance is |to^2 - from^2| / (2 a).
     *
     * @param fromMmPerS speed at the start, at least 0
     * @param toMmPerS speed at the end, at least 0
     * @param accelerationMmPerS2 size of the acceleration or deceleration, greater than 0
     * @throws IllegalArgumentException if a value is out of its range or not finite
     */
    public static TravelSpectrum ramp(double fromMmPerS, double toMmPerS, double accelerationMmPerS2) {
        requireNotNegative(fromMmPerS, "speed at the start", "mm/s");
        requireNotNegative(toMmPerS, "speed at the end", "mm/s");
        requirePositive(accelerationMmPerS2, "acceleration", "mm/s²");
        double lowEnd = Math.min(fromMmPerS, toMmPerS);
        double highEnd = Math.max(fromMmPerS, toMmPerS);
        if (lowEnd == highEnd) {
            return NONE;
        }
        return new TravelSpectrum(new double[] {lowEnd}, new double[] {highEnd}, new double[] {
            (highEnd - lowEnd) * (highEnd + lowEnd) / (2 * accelerationMmPerS2)
        });
    }

    /**
     * Returns the move from standstill to standstill with equal acceleration and deceleration.
     *
     * @see #move(double, double, double, double)
     */
    public static TravelSpectrum move(double strokeMm, double speedMmPerS, double accelerationMmPerS2) {
        return move(strokeMm, speedMmPerS, accelerationMmPerS2, accelerationMmPerS2);
    }

    /**
     * Returns the move from standstill to standstill: a trapezoid in speed, or a triangle when the stroke is too
     * short to reach the speed. Below any v0 under the peak it spends v0^2/(2a) + v0^2/(2d). The triangle peaks
     * at sqrt(2 S a d / (a + d)).
     *
     * @param strokeMm S, greater than 0
     * @param speedMmPerS programmed speed, greater than 0
     * @param accelerationMmPerS2 a, greater than 0
     * @param decelerationMmPerS2 d as a positive number, greater than 0
     * @throws IllegalArgumentException if a value is out of its range or not finite
     */
    public static TravelSpectrum move(
            double strokeMm, double speedMmPerS, double accelerationMmPerS2, double decelerationMmPerS2) {
        requirePositive(strokeMm, "stroke", "mm");
        requirePositive(speedMmPerS, "speed", "mm/s");
        requirePositive(accelerationMmPerS2, "acceleration", "mm/s²");
        requirePositive(decelerationMmPerS2, "deceleration", "mm/s²");
        double peak = Math.min(speedMmPerS, trianglePeakMmPerS(strokeMm, accelerationMmPerS2, decelerationMmPerS2));
        double ramps = peak * peak / (2 * accelerationMmPerS2) + peak * peak / (2 * decelerationMmPerS2);
        double hold = strokeMm - ramps;
        if (peak < speedMmPerS || hold <= 0) {
            return new TravelSpectrum(new double[] {0}, new double[] {peak}, new double[] {strokeMm});
        }
        return new TravelSpectrum(new double[] {0, peak}, new double[] {peak, peak}, new double[] {ramps, hold});
    }

    /**
     * Returns the highest speed a move from standstill to standstill can reach: sqrt(2 S a d / (a + d)).
     *
     * @param strokeMm S, greater than 0
     * @param accelerationMmPerS2 a, greater than 0
     * @param decelerationMmPerS2 d as a positive number, greater than 0
     */
    public static double trianglePeakMmPerS(double strokeMm, double accelerationMmPerS2, double decelerationMmPerS2) {
        return Math.sqrt(2 * strokeMm / (1 / accelerationMmPerS2 + 1 / decelerationMmPerS2));
    }

    /**
     * Returns the spectrum of a log of times and speeds, the speed taken as a straight line between samples.
     *
     * @param timeS times, strictly ascending
     * @param speedMmPerS speeds, either sign; a change of sign passes through standstill
     * @throws IllegalArgumentException if the arrays differ in length, or a time does not ascend, or a value is not finite
     */
    public static TravelSpectrum ofProfile(double[] timeS, double[] speedMmPerS) {
        return ofProfile(timeS, speedMmPerS, 0, timeS.length);
    }

    /**
     * Returns the spectrum of a stretch of a log.
     *
     * @param timeS times, strictly ascending within the stretch
     * @param speedMmPerS speeds, either sign
     * @param from first sample
     * @param to sample after the last
     * @throws IllegalArgumentException if the arrays differ in length, or a time does not ascend, or a value is not finite
     * @throws IndexOutOfBoundsException if the stretch is not inside the arrays
     * @see #ofProfile(double[], double[])
     */
    public static TravelSpectrum ofProfile(double[] timeS, double[] speedMmPerS, int from, int to) {
        if (timeS.length != speedMmPerS.length) {
            throw new IllegalArgumentException(
                    "as many times as speeds are needed: " + timeS.length + " and " + speedMmPerS.length);
        }
        Objects.checkFromToIndex(from, to, timeS.length);
        Parts parts = new Parts(Math.max(4, to - from));
        for (int i = from; i < to; i++) {
            if (!Double.isFinite(timeS[i]) || !Double.isFinite(speedMmPerS[i])) {
                throw new IllegalArgumentException("sample " + i + " is not finite");
            }
            if (i == from) {
                continue;
            }
            double step = timeS[i] - timeS[i - 1];
            if (!(step > 0)) {
                throw new IllegalArgumentException(
                        "times must ascend: sample " + i + " at " + timeS[i] + " s after " + timeS[i - 1] + " s");
            }
            double before = speedMmPerS[i - 1];
            double after = speedMmPerS[i];
            if (before * after < 0) {
                double share = before / (before - after);
                parts.add(0, Math.abs(before), Math.abs(before) / 2 * step * share);
                parts.add(0, Math.abs(after), Math.abs(after) / 2 * step * (1 - share));
            } else {
                double a = Math.abs(before);
                double b = Math.abs(after);
                parts.add(Math.min(a, b), Math.max(a, b), (a + b) / 2 * step);
            }
        }
        return parts.build();
    }

    /** Returns the sum of several motions. */
    public static TravelSpectrum sum(List<TravelSpectrum> motions) {
        int size = 0;
        for (TravelSpectrum motion : motions) {
            size += motion.distance.length;
        }
        Parts parts = new Parts(Math.max(4, size));
        for (TravelSpectrum motion : motions) {
            for (int i = 0; i < motion.distance.length; i++) {
                parts.add(motion.low[i], motion.high[i], motion.distance[i]);
            }
        }
        return parts.build();
    }

    /** Returns this motion followed by another. */
    public TravelSpectrum plus(TravelSpectrum other) {
        return sum(List.of(this, other));
    }

    /**
     * Returns the motion with all distances multiplied, as for a repeated motion.
     *
     * @param factor dimensionless, at least 0
     * @throws IllegalArgumentException if the factor is negative or not finite
     */
    public TravelSpectrum times(double factor) {
        requireNotNegative(factor, "factor", "");
        if (factor == 0) {
            return NONE;
        }
        double[] scaled = distance.clone();
        for (int i = 0; i < scaled.length; i++) {
            scaled[i] *= factor;
        }
        return new TravelSpectrum(low, high, scaled);
    }

    /** Returns the whole distance in mm. */
    public double totalMm() {
        double sum = 0;
        for (double part : distance) {
            sum += part;
        }
        return sum;
    }

    /** Returns the highest speed that occurs, in mm/s; 0 for no travel. */
    public double peakMmPerS() {
        double peak = 0;
        for (double end : high) {
            peak = Math.max(peak, end);
        }
        return peak;
    }

    /**
     * Returns the distance spent slower than a speed, in mm. Travel exactly at the speed is not counted.
     *
     * @param speedMmPerS the speed, at least 0
     */
    public double distanceBelowMm(double speedMmPerS) {
        double sum = 0;
        for (int i = 0; i < distance.length; i++) {
            if (high[i] <= speedMmPerS) {
                sum += high[i] < speedMmPerS || low[i] < high[i] ? distance[i] : 0;
            } else if (low[i] < speedMmPerS) {
                sum += distance[i] * shareBelow(i, speedMmPerS);
            }
        }
        return sum;
    }

    /**
     * Returns the distance spent at a speed or faster, in mm: the total less {@link #distanceBelowMm}.
     *
     * @param speedMmPerS the speed, at least 0
     */
    public double distanceFromMm(double speedMmPerS) {
        return Math.max(0, totalMm() - distanceBelowMm(speedMmPerS));
    }

    /**
     * Returns the integral of a function of speed over the travel, in mm times the function's unit. Each part is
     * cut in slices of at most 2 % in speed (from a ten-thousandth of its upper end on) with three Gauss points
     * each; meant for checks and plans, the fit uses {@link #onKnots}.
     *
     * @param value the function of speed in mm/s
     */
    public double integral(DoubleUnaryOperator value) {
        double sum = 0;
        for (int i = 0; i < distance.length; i++) {
            if (low[i] == high[i]) {
                sum += distance[i] * value.applyAsDouble(low[i]);
                continue;
            }
            double start = Math.max(low[i], high[i] * 1e-4);
            if (low[i] < start) {
                sum += distance[i] * shareBelow(i, start) * value.applyAsDouble(0.5 * (low[i] + start));
            }
            int slices = (int) Math.ceil(Math.log(high[i] / start) / 0.02);
            double density = 2 * distance[i] / ((high[i] - low[i]) * (high[i] + low[i]));
            for (int j = 0; j < slices; j++) {
                double a = start * Math.pow(high[i] / start, (double) j / slices);
                double b = start * Math.pow(high[i] / start, (j + 1.0) / slices);
                double middle = 0.5 * (a + b);
                double half = 0.5 * (b - a);
                double off = half * GAUSS_NODE;
                sum += density
                        * half
                        / 9
                        * (8 * middle * value.applyAsDouble(middle)
                                + 5 * (middle - off) * value.applyAsDouble(middle - off)
                                + 5 * (middle + off) * value.applyAsDouble(middle + off));
            }
        }
        return sum;
    }

    /**
     * Returns the distances on hat functions in ln v.
     *
     * @param knotsMmPerS speeds of the knots, strictly ascending, greater than 0, at least one; copied
     * @throws IllegalArgumentException if the knots are not as asked
     */
    public KnotDistances onKnots(double[] knotsMmPerS) {
        double[] knots = knotsMmPerS.clone();
        if (knots.length == 0) {
            throw new IllegalArgumentException("at least one knot is needed");
        }
        for (int k = 0; k < knots.length; k++) {
            requirePositive(knots[k], "speed of knot " + k, "mm/s");
            if (k > 0 && !(knots[k] > knots[k - 1])) {
                throw new IllegalArgumentException("knots must ascend: " + knots[k] + " after " + knots[k - 1]);
            }
        }
        double[] out = new double[knots.length];
        double below = 0;
        double above = 0;
        double slowest = knots[0];
        double fastest = knots[knots.length - 1];
        for (int i = 0; i < distance.length; i++) {
            if (low[i] == high[i]) {
                if (low[i] < slowest) {
                    below += distance[i];
                } else if (low[i] >= fastest) {
                    out[knots.length - 1] += distance[i];
                    above += low[i] > fastest ? distance[i] : 0;
                } else {
                    addPoint(knots, out, segmentOf(knots, low[i]), low[i], distance[i]);
                }
                continue;
            }
            if (low[i] < slowest) {
                below += high[i] <= slowest ? distance[i] : distance[i] * shareBelow(i, slowest);
            }
            if (high[i] > fastest) {
                double part = low[i] >= fastest ? distance[i] : distance[i] * (1 - shareBelow(i, fastest));
                above += part;
                out[knots.length - 1] += part;
            }
            double from = Math.max(low[i], slowest);
            double to = Math.min(high[i], fastest);
            if (from < to) {
                double density = 2 * distance[i] / ((high[i] - low[i]) * (high[i] + low[i]));
                for (int k = segmentOf(knots, from); k < knots.length - 1 && knots[k] < to; k++) {
                    addRamp(knots, out, k, Math.max(from, knots[k]), Math.min(to, knots[k + 1]), density);
                }
            }
        }
        return new KnotDistances(knots, out, below, above);
    }

    private double shareBelow(int i, double speed) {
        return (speed - low[i]) * (speed + low[i]) / ((high[i] - low[i]) * (high[i] + low[i]));
    }

    /** Returns k with knots[k] &lt;= speed &lt; knots[k + 1], for a speed inside the knots. */
    private static int segmentOf(double[] knots, double speed) {
        int at = Arrays.binarySearch(knots, speed);
        return at >= 0 ? at : -at - 2;
    }

    private static void addPoint(double[] knots, double[] out, int k, double speed, double distance) {
        double upper = Math.log(speed / knots[k]) / Math.log(knots[k + 1] / knots[k]);
        out[k] += distance * (1 - upper);
        out[k + 1] += distance * upper;
    }

    /** Adds the density c v between two speeds of one segment: integral of c v ln(v / v_k) dv in closed form. */
    private static void addRamp(double[] knots, double[] out, int k, double from, double to, double density) {
        double all = density * (to - from) * (to + from) / 2;
        double width = Math.log(knots[k + 1] / knots[k]);
        double upper;
        if (to - from < NARROW * to) {
            double middle = 0.5 * (from + to);
            double off = 0.5 * (to - from) * GAUSS_NODE;
            upper = density
                    * (to - from)
                    / 18
                    * (8 * middle * Math.log(middle / knots[k])
                            + 5 * (middle - off) * Math.log((middle - off) / knots[k])
                            + 5 * (middle + off) * Math.log((middle + off) / knots[k]))
                    / width;
        } else {
            upper = density
                    / 2
                    * (to * to * (Math.log(to / knots[k]) - 0.5) - from * from * (Math.log(from / knots[k]) - 0.5))
                    / width;
        }
        out[k] += all - upper;
        out[k + 1] += upper;
    }

    private static void requirePositive(double value, String what, String unit) {
        if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(what + " must be greater than 0: " + value + " " + unit);
        }
    }

    private static void requireNotNegative(double value, String what, String unit) {
        if (!(value >= 0 && value < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(what + " must be at least 0: " + value + " " + unit);
        }
    }

    @Override
    public String toString() {
        return totalMm() + " mm up to " + peakMmPerS() + " mm/s";
    }

    /** Collects parts; merges one that has the same ends as one of the few before it. */
    private static final class Parts {
        private static final int LOOK_BACK = 8;
        private double[] low;
        private double[] high;
        private double[] distance;
        private int size;

        Parts(int capacity) {
            low = new double[capacity];
            high = new double[capacity];
            distance = new double[capacity];
        }

        void add(double lowEnd, double highEnd, double part) {
            if (part == 0) {
                return;
            }
            for (int i = size - 1; i >= Math.max(0, size - LOOK_BACK); i--) {
                if (low[i] == lowEnd && high[i] == highEnd) {
                    distance[i] += part;
                    return;
                }
            }
            if (size == low.length) {
                low = Arrays.copyOf(low, 2 * size);
                high = Arrays.copyOf(high, 2 * size);
                distance = Arrays.copyOf(distance, 2 * size);
            }
            low[size] = lowEnd;
            high[size] = highEnd;
            distance[size++] = part;
        }

        TravelSpectrum build() {
            return size == 0
                    ? NONE
                    : new TravelSpectrum(
                            Arrays.copyOf(low, size), Arrays.copyOf(high, size), Arrays.copyOf(distance, size));
        }
    }
}
