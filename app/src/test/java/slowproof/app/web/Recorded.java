package slowproof.app.web;

import java.util.Locale;

/** Writes the log of an invented bench for tests: to and fro over 600 mm at 50 and 100 mm/s, 100 rows a second. */
final class Recorded {
    /** The sensor shows so much too much: 0.2 percent. */
    static final double SCALE = 1.002;

    private Recorded() {}

    /** Position of the carriage in mm at a time in s; a pass begins at 2 s, 16 s, 30 s and 38 s. */
    private static double position(double t) {
        double[][] moves = {{2, 14, 50}, {16, 28, -50}, {30, 36, 100}, {38, 44, -100}};
        double at = 0;
        for (double[] move : moves) {
            at += move[2] * Math.max(0, Math.min(t, move[1]) - move[0]);
        }
        return at;
    }

    /** Returns the log as a loggers' program with German habits writes it: times in ms, decimal commas, own headings. */
    static String german() {
        StringBuilder out = new StringBuilder("Uhr [ms];Impulse;Schlitten [mm];Notiz\r\n");
        for (int i = 0; i <= 4600; i++) {
            double mm = position(i / 100.0);
            out.append(String.format(Locale.GERMAN, "%d;%d;%.3f;x\r\n", 10 * i, Math.round(SCALE * mm / 0.05), mm));
        }
        return out.toString();
    }

    /** Returns the log with headings that are recognised; without signal from 32 s to 33 s. */
    static String plain() {
        StringBuilder out = new StringBuilder("time_s,count,reference_mm,dropout_pct\n");
        for (int i = 0; i <= 4600; i++) {
            double mm = position(i / 100.0);
            out.append(String.format(
                    Locale.ROOT,
                    "%.2f,%d,%.3f,%d\n",
                    i / 100.0,
                    Math.round(SCALE * mm / 0.05),
                    mm,
                    i > 3200 && i < 3300 ? 100 : 0));
        }
        return out.toString();
    }

    /** Returns what the sensor alone wrote; its clock shows 0.5 s less. */
    static String sensor() {
        StringBuilder out = new StringBuilder("time_s,count\n");
        for (int i = 0; i <= 4600; i++) {
            out.append(String.format(
                    Locale.ROOT, "%.2f,%d\n", i / 100.0 - 0.5, Math.round(SCALE * position(i / 100.0) / 0.05)));
        }
        return out.toString();
    }

    /** Returns what the axis alone wrote. */
    static String axis() {
        StringBuilder out = new StringBuilder("time_s,position_mm\n");
        for (int i = 0; i <= 4600; i++) {
            out.append(String.format(Locale.ROOT, "%.2f,%.3f\n", i / 100.0, position(i / 100.0)));
        }
        return out.toString();
    }
}
