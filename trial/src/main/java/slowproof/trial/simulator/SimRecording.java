package slowproof.trial.simulator;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * A simulated recording and the truth beside it. The sensor's columns have one entry per sensor sample, the
 * axis' columns one per reference sample; with one clock both have the same times. Arrays are handed out as copies.
 */
public final class SimRecording {
    private final double[] sensorTimeS;
    private final long[] count;
    private final boolean[] valid;
    private final double[] axisTimeS;
    private final double[] axisPositionMm;
    private final Truth truth;

    /** Takes the arrays over without copying them. */
    SimRecording(
            double[] sensorTimeS,
            long[] count,
            boolean[] valid,
            double[] axisTimeS,
            double[] axisPositionMm,
            Truth truth) {
        this.sensorTimeS = sensorTimeS;
        this.count = count;
        this.valid = valid;
        this.axisTimeS = axisTimeS;
        this.axisPositionMm = axisPositionMm;
        this.truth = truth;
    }

    /**
     * A time at rest.
     *
     * @param startS begin by the reference's clock, s
     * @param endS end by the reference's clock, s
     */
    public record Standstill(double startS, double endS) {}

    /**
     * What really happened.
     *
     * @param passes the true passes; times by the reference's clock, dropout shares as recorded in the samples
     * @param standstills the dwells, one more than passes
     * @param clockOffsetS reference time at sensor time zero, s
     * @param clockDriftPpm how much slow the sensor's clock is, ppm
     * @param latencyS age of the sensor's count when it is sampled, s
     * @param referenceScaleErrorRatio scale error of the reference, ratio
     * @param distancePerCountMm length of one count, mm
     */
    public record Truth(
            List<PassTruth> passes,
            List<Standstill> standstills,
            double clockOffsetS,
            double clockDriftPpm,
            double latencyS,
            double referenceScaleErrorRatio,
            double distancePerCountMm) {
        /** Copies the lists. */
        public Truth {
            passes = List.copyOf(passes);
            standstills = List.copyOf(standstills);
        }

        /** Returns the reference's time in s at a time of the sensor's clock in s. */
        public double referenceTimeS(double sensorTimeS) {
            return sensorTimeS * (1 + clockDriftPpm * 1e-6) + clockOffsetS;
        }
    }

    /** Returns the sensor's time stamps by its own clock, s, ascending. */
    public double[] sensorTimeS() {
        return sensorTimeS.clone();
    }

    /** Returns what the counter's register showed at each sensor sample. */
    public long[] count() {
        return count.clone();
    }

    /** Returns whether the sensor had a valid signal at each sensor sample. */
    public boolean[] valid() {
        return valid.clone();
    }

    /** Returns the reference's time stamps by its own clock, s, ascending. */
    public double[] axisTimeS() {
        return axisTimeS.clone();
    }

    /** Returns the reference's position at each of its samples, mm. */
    public double[] axisPositionMm() {
        return axisPositionMm.clone();
    }

    /** Returns the levels of channel A, 0 or 1, at each sensor sample; the counter counts all edges, A leads forward. */
    public int[] channelA() {
        return Arrays.stream(count)
                .mapToInt(c -> (c & 3) == 1 || (c & 3) == 2 ? 1 : 0)
                .toArray();
    }

    /** Returns the levels of channel B, 0 or 1, at each sensor sample. */
    public int[] channelB() {
        return Arrays.stream(count).mapToInt(c -> (c & 3) >= 2 ? 1 : 0).toArray();
    }

    /** Returns the truth. */
    public Truth truth() {
        return truth;
    }

    /**
     * Returns a copy in which the sensor's samples of a stretch of time are missing.
     *
     * @param fromS begin by the sensor's clock, s, included
     * @param toS end by the sensor's clock, s, excluded
     */
    public SimRecording withSensorGap(double fromS, double toS) {
        int[] kept = outside(sensorTimeS, fromS, toS);
        boolean[] keptValid = new boolean[kept.length];
        for (int i = 0; i < kept.length; i++) {
            keptValid[i] = valid[kept[i]];
        }
        return new SimRecording(
                Arrays.stream(kept).mapToDouble(i -> sensorTimeS[i]).toArray(),
                Arrays.stream(kept).mapToLong(i -> count[i]).toArray(),
                keptValid,
                axisTimeS,
                axisPositionMm,
                truth);
    }

    /**
     * Returns a copy in which the reference's samples of a stretch of time are missing.
     *
     * @param fromS begin by the reference's clock, s, included
     * @param toS end by the reference's clock, s, excluded
     */
    public SimRecording withAxisGap(double fromS, double toS) {
        int[] kept = outside(axisTimeS, fromS, toS);
        return new SimRecording(
                sensorTimeS,
                count,
                valid,
                Arrays.stream(kept).mapToDouble(i -> axisTimeS[i]).toArray(),
                Arrays.stream(kept).mapToDouble(i -> axisPositionMm[i]).toArray(),
                truth);
    }

    private static int[] outside(double[] timeS, double fromS, double toS) {
        return IntStream.range(0, timeS.length)
                .filter(i -> timeS[i] < fromS || timeS[i] >= toS)
                .toArray();
    }
}
