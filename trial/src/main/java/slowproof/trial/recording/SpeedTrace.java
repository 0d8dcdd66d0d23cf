package slowproof.trial.recording;

import java.util.Arrays;
import slowproof.trial.Check;

/**
 * A recording made small enough for a picture: mean speeds over equal times. Where rows are missing, or the
 * recording is cut, there is no speed.
 *
 * @param fromS start of the first piece in s
 * @param stepS length of a piece in s, above zero
 * @param referenceMmPerS speed of the reference in each piece, in mm/s, signed; NaN where there is none
 * @param indicatedMmPerS speed that the sensor shows in each piece, in mm/s, signed; NaN where there is none
 * @param dropout share of each piece without a valid signal, a ratio from 0 to 1; NaN where unknown
 */
public record SpeedTrace(double fromS, double stepS, Column referenceMmPerS, Column indicatedMmPerS, Column dropout) {
    /** Checks the parts. */
    public SpeedTrace {
        Check.positive(stepS, "piece", "s");
        if (referenceMmPerS.size() != indicatedMmPerS.size() || dropout.size() != indicatedMmPerS.size()) {
            throw new IllegalArgumentException("traces of different length");
        }
    }

    /** Returns the number of pieces. */
    public int size() {
        return dropout.size();
    }

    /** Returns the middle of a piece in s. */
    public double timeS(int piece) {
        return fromS + (piece + 0.5) * stepS;
    }

    /**
     * Returns the trace of a whole recording.
     *
     * @param recording a recording of at least two rows
     * @param pieces number of pieces, above zero
     */
    public static SpeedTrace of(Recording recording, int pieces) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (Segment segment : recording.segments()) {
            low = Math.min(low, recording.timeS().at(segment.from()));
            high = Math.max(high, recording.timeS().at(segment.to() - 1));
        }
        return of(recording, low, high > low ? high : low + 1, pieces);
    }

    /**
     * Returns the trace of a part of a recording.
     *
     * @param recording a recording
     * @param fromS start in s
     * @param toS end in s, after the start
     * @param pieces number of pieces, above zero
     */
    public static SpeedTrace of(Recording recording, double fromS, double toS, int pieces) {
        double step = Check.positive((toS - fromS) / pieces, "piece", "s");
        double[] reference = new double[pieces];
        double[] indicated = new double[pieces];
        double[] dropout = new double[pieces];
        Arrays.fill(reference, Double.NaN);
        Arrays.fill(indicated, Double.NaN);
        Arrays.fill(dropout, Double.NaN);
        double[] time = recording.timeS().raw();
        double[] axis = recording.hasReference() ? recording.referenceMm().raw() : new double[0];
        double[] shown = recording.hasIndication() ? recording.indicationMm().raw() : new double[0];
        double[] lost = recording.hasDropout() ? recording.dropout().raw() : new double[0];
        for (Segment segment : recording.segments()) {
            int row = lastNotAfter(time, segment, fromS);
            for (int piece = 0; piece < pieces && row < segment.to() - 1; piece++) {
                double end = fromS + (piece + 1) * step;
                int next = row;
                double lostS = 0;
                double knownS = 0;
                while (next < segment.to() - 1 && time[next + 1] <= end) {
                    next++;
                    if (lost.length > 0 && !Double.isNaN(lost[next])) {
                        knownS += time[next] - time[next - 1];
                        lostS += lost[next] * (time[next] - time[next - 1]);
                    }
                }
                // rows further apart than a piece: the speed between the two around it
                int to = next > row ? next : row + 1;
                boolean reached = time[row] <= end && time[to] >= end - step;
                if (reached && !gap(recording, row, to)) {
                    double duration = time[to] - time[row];
                    reference[piece] = axis.length == 0 ? Double.NaN : (axis[to] - axis[row]) / duration;
                    indicated[piece] = shown.length == 0 ? Double.NaN : (shown[to] - shown[row]) / duration;
                    dropout[piece] = knownS > 0 ? lostS / knownS : Double.NaN;
                }
                row = next;
            }
        }
        return new SpeedTrace(
                fromS,
                step,
                Column.owning(reference, pieces),
                Column.owning(indicated, pieces),
                Column.owning(dropout, pieces));
    }

    private static int lastNotAfter(double[] time, Segment segment, double fromS) {
        int place = Arrays.binarySearch(time, segment.from(), segment.to(), fromS);
        return place >= 0 ? place : Math.max(-place - 2, segment.from());
    }

    private static boolean gap(Recording recording, int row, int to) {
        return recording.breaks().stream().anyMatch(place -> place.row() > row && place.row() <= to);
    }
}
