package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class PeakLineTest {
    private static PeakLine of(double[] times, double[] values, double from, double step) {
        PeakLine.Builder line = new PeakLine.Builder(from, step);
        for (int i = 0; i < times.length; i++) {
            line.add(times[i], values[i]);
        }
        return line.build();
    }

    @Test
    void aPeakOfOneRowSurvives() {
        double[] times = new double[1_000_000];
        double[] values = new double[times.length];
        for (int i = 0; i < times.length; i++) {
            times[i] = i * 1e-3;
            values[i] = 5;
        }
        values[654_321] = 900;
        values[765_432] = -2;
        PeakLine line = of(times, values, 0, 1);
        assertThat(line.size()).isLessThanOrEqualTo(2000);
        assertThat(line.value().toArray()).contains(900, -2);
        for (int i = 0; i < line.size(); i++) {
            if (line.value().at(i) == 900) {
                assertThat(line.timeS().at(i)).isEqualTo(654_321 * 1e-3);
            }
        }
    }

    @Test
    void everyPieceKeepsItsExtremesAtTheirTimes() {
        for (long seed = 1; seed <= 50; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            int rows = 1 + random.nextInt(3000);
            double[] times = new double[rows];
            double[] values = new double[rows];
            double now = random.nextDouble();
            for (int i = 0; i < rows; i++) {
                now += 0.01 * random.nextDouble();
                times[i] = now;
                // few different values, so that ties occur
                values[i] = random.nextInt(40);
            }
            double from = times[0];
            double step = 0.001 + 0.5 * random.nextDouble();
            PeakLine line = of(times, values, from, step);
            PeakLine plain = plainly(times, values, from, step);
            assertThat(line.timeS().toArray())
                    .as("seed %s", seed)
                    .isEqualTo(plain.timeS().toArray());
            assertThat(line.value().toArray())
                    .as("seed %s", seed)
                    .isEqualTo(plain.value().toArray());
        }
    }

    /** Looks at every row for every piece. */
    private static PeakLine plainly(double[] times, double[] values, double from, double step) {
        Column.Builder at = new Column.Builder(16);
        Column.Builder value = new Column.Builder(16);
        long pieces = (long) ((times[times.length - 1] - from) / step) + 1;
        for (long piece = 0; piece < pieces; piece++) {
            int low = -1;
            int high = -1;
            for (int i = 0; i < times.length; i++) {
                if ((long) Math.floor((times[i] - from) / step) == piece) {
                    low = low < 0 || values[i] < values[low] ? i : low;
                    high = high < 0 || values[i] > values[high] ? i : high;
                }
            }
            if (low >= 0) {
                at.add(times[Math.min(low, high)]);
                value.add(values[Math.min(low, high)]);
            }
            if (low != high) {
                at.add(times[Math.max(low, high)]);
                value.add(values[Math.max(low, high)]);
            }
        }
        return new PeakLine(at.build(), value.build());
    }

    @Test
    void nothingIsDrawnAcrossAGap() {
        PeakLine.Builder line = new PeakLine.Builder(0, 10);
        line.gap();
        line.add(1, 5);
        line.add(2, 6);
        line.gap();
        line.add(8, Double.NaN);
        line.add(9, 7);
        PeakLine built = line.build();
        assertThat(built.timeS().toArray()).containsExactly(1, 2, 2, 9);
        assertThat(built.value().toArray()).containsExactly(5, 6, Double.NaN, 7);
    }
}
