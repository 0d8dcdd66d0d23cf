package slowproof.benchmarks;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.SplittableRandom;

/**
 * Writes a long log of one clock and the trial that reads it: a carriage goes to and fro over 900 mm at speeds from 20
 * to 400 mm/s, a row each millisecond with time, count, reference and dropout share, about 35 bytes a row. The same
 * words write the same bytes.
 *
 * <p>Words: folder, number of rows, and how many of eight speeds, the fastest first; with fewer than five the findings
 * are brackets, without an error curve.
 */
public final class LongLog {
    private static final double STROKE_MM = 900;
    private static final double ACCELERATION_MM_S2 = 500;
    private static final double DWELL_S = 1.5;
    private static final double COUNT_MM = 0.05;
    private static final double[] SPEEDS_MM_S = {400, 250, 160, 100, 63, 40, 25, 20};

    private static final String TRIAL = """
            trial: "long log"
            sensor: {distance_per_count_mm: 0.05, counter_bits: 32}
            reference: {kind: axis, expanded_uncertainty_mm: 0.01}
            limit: {relative_pct: 0.15}
            recordings:
              - {material: "invented felt", file: long.csv}
            """;

    private final int speeds;
    private final byte[] buffer = new byte[1 << 20];
    private final OutputStream out;
    private int length;

    private LongLog(OutputStream out, int speeds) {
        this.out = out;
        this.speeds = speeds;
    }

    /** Writes the log and its trial. */
    public static void main(String[] words) throws IOException {
        Path folder = Files.createDirectories(Path.of(words[0]));
        long rows = Long.parseLong(words[1]);
        Files.writeString(folder.resolve("trial.yaml"), TRIAL);
        try (OutputStream out = Files.newOutputStream(folder.resolve("long.csv"))) {
            LongLog log = new LongLog(out, Integer.parseInt(words[2]));
            log.text("time_s,count,reference_mm,dropout_pct\n");
            log.rows(rows);
            log.flush();
        }
    }

    private void rows(long rows) throws IOException {
        SplittableRandom random = new SplittableRandom(2026);
        double shown = 0;
        double moved = 0;
        double lostUntil = -1;
        for (long i = 0; i < rows; i++) {
            double t = i / 1000.0;
            double position = position(t);
            double speed = Math.abs(position - moved) * 1000;
            // a loss that grows below 60 mm/s, and a scale error of 0.02 %
            double error = 0.0002 - 0.01 / (1 + Math.pow(speed / 40, 3));
            shown += (position - moved) * (1 + error);
            moved = position;
            if (speed > 0 && random.nextInt(4000) == 0) {
                lostUntil = t + 0.02;
            }
            number(1000 * i, 6);
            buffer[length++] = ',';
            number(1_000_000 + (long) Math.floor(shown / COUNT_MM), 0);
            buffer[length++] = ',';
            number(Math.round(1e5 * position) + random.nextInt(-100, 101) + 5_000_000, 5);
            buffer[length++] = ',';
            number(t < lostUntil ? 10_000 : 0, 2);
            buffer[length++] = '\n';
            if (length > buffer.length - 100) {
                flush();
            }
        }
    }

    /** Where the carriage is after {@code t} seconds, in mm. */
    private double position(double t) {
        double rest = t;
        for (int move = 0; ; move++) {
            double v = SPEEDS_MM_S[(move / 10) % speeds];
            double ramp = v / ACCELERATION_MM_S2;
            double moving = STROKE_MM / v + ramp;
            double from = move % 2 == 0 ? 0 : STROKE_MM;
            double sense = move % 2 == 0 ? 1 : -1;
            if (rest < DWELL_S + moving) {
                double s = Math.max(rest - DWELL_S, 0);
                double way;
                if (s < ramp) {
                    way = ACCELERATION_MM_S2 * s * s / 2;
                } else if (s < moving - ramp) {
                    way = v * (s - ramp / 2);
                } else {
                    double left = moving - s;
                    way = STROKE_MM - ACCELERATION_MM_S2 * left * left / 2;
                }
                return from + sense * way;
            }
            rest -= DWELL_S + moving;
        }
    }

    private void text(String text) {
        byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);
        System.arraycopy(bytes, 0, buffer, length, bytes.length);
        length += bytes.length;
    }

    /** Writes a whole number of units of the last decimal, not negative. */
    private void number(long units, int decimals) {
        long scale = 1;
        for (int i = 0; i < decimals; i++) {
            scale *= 10;
        }
        text(Long.toString(units / scale));
        if (decimals > 0) {
            buffer[length++] = '.';
            long part = units % scale;
            for (long place = scale / 10; place > 0; place /= 10) {
                buffer[length++] = (byte) ('0' + part / place % 10);
            }
        }
    }

    private void flush() throws IOException {
        out.write(buffer, 0, length);
        length = 0;
    }
}
