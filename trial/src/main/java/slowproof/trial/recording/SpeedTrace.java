package slowproof.trial.recording;

import java.util.Arrays;
import slowproof.trial.Check;

/**
 * A recording made small enough for a picture: speeds with every peak kept, and dropouts piece by piece. Where rows
 * are missing, or the recording is cut, the lines are interrupted.
 *
 * @param fromS start of the first piece in s
 * @param stepS length of a piece in s, above zero
 * @param gateS time over which the speeds are averaged, in s, above zero
 * @param referenceMmPerS speed of the reference in mm/s, signed; empty without a reference
 * @param indicatedMmPerS speed that the sensor shows in mm/s, signed; empty without an indication
 * @param dropout share of each piece without a valid signal, a ratio from 0 to 1; NaN where unknown
 */
public record SpeedTrace(
        double fromS, double stepS, double gateS, PeakLine referenceMmPerS, PeakLine indicatedMmPerS, Column dropout) {
    /** Averages in a piece that are enough to show its extremes. */
    private static final int AVERAGES = 50;

    private static final PeakLine NONE = new PeakLine(Column.copyOf(), Column.copyOf());

    /** Checks the parts. */
    public SpeedTrace {
        Check.positive(stepS, "piece", "s");
        Check.positive(gateS, "averaging time", "s");
    }

    /** Returns the number of pieces. */
    public int size() {
        return dropout.size();
    }

    /** Returns the end of the last piece in s. */
    public double toS() {
        return fromS + size() * stepS;
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
        double step = high > low ? (high - low) / pieces : 1.0 / pieces;
        // a piece of a long recording is much longer than the usual time: fifty averages of it show its peaks
        double gate = Math.max(
                RunningSpeed.usualGateS(recording), recording.isLong() ? RunningSpeed.rounded(step / AVERAGES) : 0);
        return new SpeedTrace(
                low,
                step,
                gate,
                recording.hasReference() ? line(recording, recording.referenceMm(), gate, low, step) : NONE,
                recording.hasIndication() ? line(recording, recording.indicationMm(), gate, low, step) : NONE,
                dropout(recording, low, step, pieces));
    }

    private static PeakLine line(Recording recording, Column track, double gate, double from, double step) {
        PeakLine.Builder line = new PeakLine.Builder(from, step);
        RunningSpeed.some(recording, track, gate, new RunningSpeed.Taker() {
            @Override
            public void take(int row, double timeS, double mmPerS) {
                line.add(timeS, mmPerS);
            }

            @Override
            public void gap() {
                line.gap();
            }
        });
        return line.build();
    }

    /** A row's share holds for the time since the row before it. */
    private static Column dropout(Recording recording, double from, double step, int pieces) {
        double[] share = new double[pieces];
        Arrays.fill(share, Double.NaN);
        if (recording.hasDropout()) {
            double[] known = new double[pieces];
            double[] lost = new double[pieces];
            Column time = recording.timeS();
            Column dropout = recording.dropout();
            RowBlocks blocks = dropout.blocks();
            for (Segment segment : recording.segments()) {
                for (int row = segment.from() + 1; row < segment.to(); row++) {
                    int block = row / RowBlocks.ROWS;
                    int last = Math.min(blocks.to(block), segment.to()) - 1;
                    int piece = piece(time.get(row), from, step, pieces);
                    // rows of one share in one piece need not be told apart
                    if (blocks.constant(block) && piece(time.get(last), from, step, pieces) == piece) {
                        double duration = time.get(last) - time.get(row - 1);
                        known[piece] += duration;
                        lost[piece] += dropout.get(row) * duration;
                        row = last;
                    } else if (!Double.isNaN(dropout.get(row))) {
                        double duration = time.get(row) - time.get(row - 1);
                        known[piece] += duration;
                        lost[piece] += dropout.get(row) * duration;
                    }
                }
            }
            for (int k = 0; k < pieces; k++) {
                share[k] = known[k] > 0 ? lost[k] / known[k] : Double.NaN;
            }
        }
        return Column.owning(share, pieces);
    }

    private static int piece(double timeS, double from, double step, int pieces) {
        return (int) Math.min((timeS - from) / step, pieces - 1);
    }
}
