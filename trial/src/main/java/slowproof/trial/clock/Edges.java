package slowproof.trial.clock;

import java.util.Arrays;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.Recording;

/**
 * The transitions of a count. Only they carry information: between two rows with different counts the sensor passed
 * the middle between both readings about in the middle of the time. The place is off by a constant, which the
 * estimate does not see, and by at most half the travel between the rows or half a count.
 */
final class Edges {
    private final double[] timeS;
    private final double[] positionMm;
    private final double[] intervalS;
    private final int size;
    private final double countMm;

    private Edges(double[] timeS, double[] positionMm, double[] intervalS, int size, double countMm) {
        this.timeS = timeS;
        this.positionMm = positionMm;
        this.intervalS = intervalS;
        this.size = size;
        this.countMm = countMm;
    }

    /** Returns the distance per count in mm, or the smallest step where there are no counts. */
    double countMm() {
        return countMm;
    }

    static Edges of(Recording recording, double factor) {
        double[] time = recording.timeS().toArray();
        double[] shown = recording.indicationMm().toArray();
        boolean[] broken = new boolean[time.length];
        for (Break place : recording.breaks()) {
            broken[place.row()] = true;
        }
        double[] edgeTime = new double[1024];
        double[] place = new double[1024];
        double[] interval = new double[1024];
        int size = 0;
        double smallest = Double.POSITIVE_INFINITY;
        for (int i = 1; i < time.length; i++) {
            double step = Math.abs(shown[i] - shown[i - 1]);
            if (broken[i] || step <= 1e-9) {
                continue;
            }
            if (size == edgeTime.length) {
                edgeTime = Arrays.copyOf(edgeTime, 2 * size);
                place = Arrays.copyOf(place, 2 * size);
                interval = Arrays.copyOf(interval, 2 * size);
            }
            edgeTime[size] = (time[i] + time[i - 1]) / 2;
            place[size] = factor * (shown[i] + shown[i - 1]) / 2;
            interval[size] = time[i] - time[i - 1];
            size++;
            smallest = Math.min(smallest, step);
        }
        double count = Double.isNaN(recording.countMm()) ? smallest : recording.countMm();
        return new Edges(edgeTime, place, interval, size, size == 0 ? 0 : Math.abs(factor) * count);
    }

    int size() {
        return size;
    }

    double timeS(int edge) {
        return timeS[edge];
    }

    double positionMm(int edge) {
        return positionMm[edge];
    }

    /** Returns the standard deviation of an edge's place at that speed: rectangular over the count or over the travel between rows. */
    double noiseMm(int edge, double speedMmPerS) {
        return Math.min(countMm, Math.abs(speedMmPerS) * intervalS[edge]) / Math.sqrt(12);
    }
}
