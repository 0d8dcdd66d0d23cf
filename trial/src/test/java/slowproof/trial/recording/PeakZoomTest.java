package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class PeakZoomTest {
    /** Rows in arrays; counts how often a row or a block is looked at. */
    private static final class Rows implements TrackRows {
        private final double[] times;
        private final double[] values;
        private long looks;

        Rows(double[] times, double[] values) {
            this.times = times;
            this.values = values;
        }

        @Override
        public int size() {
            return times.length;
        }

        @Override
        public double timeS(int row) {
            looks++;
            return times[row];
        }

        @Override
        public double value(int row) {
            looks++;
            return values[row];
        }

        @Override
        public double blockLow(int block) {
            looks++;
            double low = Double.NaN;
            for (int row = block * BLOCK; row < Math.min((block + 1) * BLOCK, times.length); row++) {
                low = Double.isNaN(low) || values[row] < low ? values[row] : low;
            }
            return low;
        }

        @Override
        public double blockHigh(int block) {
            looks++;
            double high = Double.NaN;
            for (int row = block * BLOCK; row < Math.min((block + 1) * BLOCK, times.length); row++) {
                high = Double.isNaN(high) || values[row] > high ? values[row] : high;
            }
            return high;
        }
    }

    /** Every row of the window, and one on each side, in each stretch. */
    private static PeakLine plainly(Rows rows, int[] interruptions, double from, double to, int pieces) {
        PeakLine.Builder line = new PeakLine.Builder(from, (to - from) / pieces);
        int start = 0;
        for (int k = 0; k <= interruptions.length; k++) {
            int end = k < interruptions.length ? interruptions[k] : rows.size();
            boolean touches = start < end && rows.times[start] <= to && rows.times[end - 1] >= from;
            if (touches) {
                line.gap();
            }
            for (int row = start; touches && row < end; row++) {
                boolean before = row + 1 < end && rows.times[row + 1] < from;
                boolean after = row > start && rows.times[row - 1] > to;
                if (!before && !after) {
                    line.add(rows.times[row], rows.values[row]);
                }
            }
            start = end;
        }
        return line.build();
    }

    @Test
    void aWindowIsTheSameAsIfEveryRowHadBeenLookedAt() {
        for (long seed = 1; seed <= 60; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            int size = 2 + random.nextInt(20_000);
            double[] times = new double[size];
            double[] values = new double[size];
            int[] interruptions =
                    random.ints(random.nextInt(4), 1, size).sorted().distinct().toArray();
            double now = 100 * random.nextDouble();
            for (int i = 0, k = 0; i < size; i++) {
                if (k < interruptions.length && interruptions[k] == i) {
                    // a clock may go back
                    now += 20 * random.nextDouble() - 8;
                    k++;
                }
                now += 0.001 + 0.01 * random.nextDouble();
                times[i] = now;
                values[i] = random.nextInt(50);
            }
            Rows rows = new Rows(times, values);
            double from = times[random.nextInt(size)] - random.nextDouble();
            double to = from + 0.001 + 60 * random.nextDouble() * random.nextDouble();
            int pieces = 1 + random.nextInt(100);
            PeakLine line = PeakZoom.of(rows, interruptions, from, to, pieces);
            PeakLine plain = plainly(rows, interruptions, from, to, pieces);
            assertThat(line.timeS().toArray())
                    .as("seed %s", seed)
                    .isEqualTo(plain.timeS().toArray());
            assertThat(line.value().toArray())
                    .as("seed %s", seed)
                    .isEqualTo(plain.value().toArray());
        }
    }

    @Test
    void aLongTrackIsNotLookedThroughRowByRow() {
        int size = 2_000_000;
        double[] times = new double[size];
        double[] values = new double[size];
        for (int i = 0; i < size; i++) {
            times[i] = i * 1e-3;
            values[i] = Math.sin(i * 1e-5);
        }
        values[1_234_567] = 40;
        Rows rows = new Rows(times, values);
        PeakLine line = PeakZoom.of(rows, new int[0], 0, size * 1e-3, 100);
        assertThat(line.value().toArray()).contains(40);
        assertThat(line.size()).isLessThanOrEqualTo(202);
        // two looks a block and some rows at the edges, against two million rows
        assertThat(rows.looks).isLessThan(size / 8);
    }

    @Test
    void whereNothingLiesNothingIsDrawn() {
        Rows rows = new Rows(new double[] {1, 2, 3}, new double[] {4, 5, 6});
        assertThat(PeakZoom.of(rows, new int[0], 10, 20, 5).size()).isZero();
        assertThat(PeakZoom.of(rows, new int[0], 1.2, 1.4, 5).value().toArray()).containsExactly(4, 5);
        assertThat(PeakZoom.of(rows, new int[0], -5, 0.5, 5).size()).isZero();
    }
}
