package slowproof.trial.recording;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import slowproof.trial.Check;

/**
 * Speed at every row of a recording: the mean over a short time around it, never across a place where rows are
 * missing. A difference from row to row would show little but the steps of the counter.
 */
public final class RunningSpeed {
    /** One step of the counter may look like this share of the top speed. */
    private static final double STEP_SHARE = 0.01;

    private static final double SHORTEST_S = 0.01;
    private static final double LONGEST_S = 0.5;
    private static final int FEWEST_INTERVALS = 3;

    private final Recording recording;
    private final Column time;
    private final double gateS;

    private RunningSpeed(Recording recording, double gateS) {
        this.recording = recording;
        this.time = recording.timeS();
        this.gateS = gateS;
    }

    /** Takes the speed at a row, in mm/s, signed. */
    @FunctionalInterface
    public interface Taker {
        /**
         * Takes a speed.
         *
         * @param row row counted from 0
         * @param timeS its time in s
         * @param mmPerS speed in mm/s; NaN for a row that stands alone
         */
        void take(int row, double timeS, double mmPerS);

        /** Learns that the next row does not follow on the one before. */
        default void gap() {}
    }

    /**
     * Returns the time over which speeds are to be averaged so that a step of the counter or of the reference makes no
     * more than a hundredth of the top speed: 0.01 s to 0.5 s, and at least three rows.
     *
     * @param recording recording with an indication, a reference or both
     * @return time in s
     */
    public static double usualGateS(Recording recording) {
        double shortest = SHORTEST_S;
        if (recording.intervalS() > 0) {
            shortest = Math.max(shortest, FEWEST_INTERVALS * recording.intervalS());
        }
        double longest = Math.max(LONGEST_S, shortest);
        double step = 0;
        Top top = new Top();
        RunningSpeed rough = new RunningSpeed(recording, longest);
        if (recording.hasReference()) {
            step = recording.referenceMm().smallestStep();
            rough.some(recording.referenceMm(), top);
        }
        if (recording.hasIndication()) {
            step = Math.max(step, recording.indicationMm().smallestStep());
            rough.some(recording.indicationMm(), top);
        }
        double gate = top.mmPerS > 0 ? step / (STEP_SHARE * top.mmPerS) : longest;
        return rounded(Math.min(Math.max(gate, shortest), longest));
    }

    /** To two digits, since people read it. */
    static double rounded(double seconds) {
        return new BigDecimal(seconds)
                .round(new MathContext(2, RoundingMode.HALF_EVEN))
                .doubleValue();
    }

    /** The highest speed of all. */
    private static final class Top implements Taker {
        private double mmPerS;

        @Override
        public void take(int row, double timeS, double speed) {
            mmPerS = Math.abs(speed) > mmPerS ? Math.abs(speed) : mmPerS;
        }
    }

    /**
     * Gives the speed of a track row by row.
     *
     * @param recording recording that the track is of
     * @param track positions in mm
     * @param gateS time to average over in s, above zero
     * @param taker what becomes of each speed
     */
    public static void each(Recording recording, Column track, double gateS, Taker taker) {
        new RunningSpeed(recording, Check.positive(gateS, "averaging time", "s")).each(track, 0, taker);
    }

    /**
     * Gives the speed of a track as {@link #each(Recording, Column, double, Taker)} does, of a long recording at rows half the
     * averaging time apart only, or further where rows are: every row lies in two of the averages, so nothing that happens is left out.
     */
    static void some(Recording recording, Column track, double gateS, Taker taker) {
        new RunningSpeed(recording, gateS).some(track, taker);
    }

    private void some(Column track, Taker taker) {
        each(track, recording.isLong() ? gateS / 2 : 0, taker);
    }

    private void each(Column track, double apartS, Taker taker) {
        int[] breaks = recording.breaks().stream().mapToInt(Break::row).sorted().toArray();
        int from = 0;
        for (int k = 0; k <= breaks.length; k++) {
            int to = k < breaks.length ? breaks[k] : recording.size();
            if (k > 0) {
                taker.gap();
            }
            stretch(track, from, to, apartS, taker);
            from = Math.max(from, to);
        }
    }

    private void stretch(Column position, int from, int to, double apartS, Taker taker) {
        if (to - from < 2) {
            for (int row = from; row < to; row++) {
                taker.take(row, time.get(row), Double.NaN);
            }
            return;
        }
        Ascending starts = new Ascending(time, to);
        Ascending ends = new Ascending(time, to);
        Ascending rows = new Ascending(time, to);
        int behind = from;
        int ahead = from;
        for (int row = from; row < to; row = apartS > 0 ? rows.firstAfter(row, apartS) : row + 1) {
            double here = time.get(row);
            double start = here - gateS / 2;
            double end = here + gateS / 2;
            // the last row not after the start, and before this one
            if (time.get(behind) <= start) {
                behind = Math.max(Math.min(starts.firstAt(behind, Math.nextUp(start)), row) - 1, behind);
            }
            ahead = Math.max(ahead, Math.min(row + 1, to - 1));
            if (time.get(ahead) < end) {
                ahead = Math.min(ends.firstAt(ahead, end), to - 1);
            }
            double duration = time.get(ahead) - time.get(behind);
            taker.take(row, here, (position.get(ahead) - position.get(behind)) / duration);
        }
    }
}
