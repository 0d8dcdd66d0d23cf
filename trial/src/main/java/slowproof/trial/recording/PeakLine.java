package slowproof.trial.recording;

import slowproof.trial.Check;

/**
 * A line made small enough for a picture without losing a peak: of every piece of time the least and the greatest
 * value are kept, at the times at which they were seen.
 *
 * @param timeS times in s, ascending between gaps
 * @param value values; NaN where the line is interrupted
 */
public record PeakLine(Column timeS, Column value) {
    /** Checks the parts. */
    public PeakLine {
        if (timeS.size() != value.size()) {
            throw new IllegalArgumentException("times and values of different number");
        }
    }

    /** Returns the number of corners, interruptions included. */
    public int size() {
        return value.size();
    }

    static long piece(double timeS, double fromS, double stepS) {
        return (long) Math.floor((timeS - fromS) / stepS);
    }

    /** Takes values in their order of time and keeps the extremes of every piece. One thread. */
    public static final class Builder {
        private final double fromS;
        private final double stepS;
        private final Column.Builder corners;
        private final Column.Builder values;
        private long piece;
        private int held;
        private double lowS;
        private double low;
        private double highS;
        private double high;
        private double lastS;
        private boolean interrupted;

        /**
         * Creates a builder.
         *
         * @param fromS start of the first piece in s
         * @param stepS length of a piece in s, above zero
         */
        public Builder(double fromS, double stepS) {
            this.fromS = fromS;
            this.stepS = Check.positive(stepS, "piece", "s");
            this.corners = new Column.Builder(1 << 10);
            this.values = new Column.Builder(1 << 10);
        }

        /** Adds a value; NaN interrupts the line as {@link #gap} does. Of equal extremes the first is kept. */
        public void add(double timeS, double value) {
            if (Double.isNaN(value)) {
                gap();
                return;
            }
            long at = piece(timeS, fromS, stepS);
            if (held > 0 && at != piece) {
                flush();
            }
            piece = at;
            if (held == 0 || value < low) {
                low = value;
                lowS = timeS;
            }
            if (held == 0 || value > high) {
                high = value;
                highS = timeS;
            }
            held++;
        }

        /** Interrupts the line: what comes next does not follow on what came before. */
        public void gap() {
            flush();
            if (values.size() > 0 && !interrupted) {
                corners.add(lastS);
                values.add(Double.NaN);
                interrupted = true;
            }
        }

        private void flush() {
            if (held == 0) {
                return;
            }
            if (lowS <= highS) {
                keep(lowS, low);
            }
            if (lowS != highS) {
                keep(highS, high);
            }
            if (lowS > highS) {
                keep(lowS, low);
            }
            held = 0;
        }

        private void keep(double timeS, double value) {
            corners.add(timeS);
            values.add(value);
            lastS = timeS;
            interrupted = false;
        }

        /** Returns the line; the builder is spent. */
        public PeakLine build() {
            flush();
            return new PeakLine(corners.build(), values.build());
        }
    }
}
