package slowproof.app.web;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.findings.Pass;

/**
 * Draws a pass to scale: the reference length fills the ruler, and the error at its end is drawn larger by a
 * stated factor of the series 1, 2, 5. Coordinates are those of a drawing of fixed width; both lengths use one scale.
 *
 * @param ticks ticks of the ruler
 * @param endX where the reference length ends
 * @param indicatedX where the indication would end with the error magnified
 * @param magnification how many times larger than the ruler the error is drawn; 0 when there is no error
 */
public record Ruler(List<Tick> ticks, double endX, double indicatedX, long magnification) {
    /** Width of the drawing. */
    public static final double WIDTH = 960;

    private static final double LEFT = 30;
    /** The ruler ends here, leaving room for an error drawn to the right of it. */
    private static final double RIGHT = 760;

    private static final double LARGEST_DRAWN_ERROR = 150;
    private static final double MOST_LABELS = 7;

    /**
     * A tick of the ruler.
     *
     * @param x where
     * @param label its label, empty for a small one
     */
    public record Tick(double x, String label) {}

    /** Copies the ticks. */
    public Ruler {
        ticks = List.copyOf(ticks);
    }

    static Ruler of(Pass pass, Show show) {
        double scale = (RIGHT - LEFT) / pass.lengthMm();
        double drawn = Math.abs(pass.errorMm()) * scale;
        long magnification = pass.errorMm() == 0 ? 0 : (long) roundDown(LARGEST_DRAWN_ERROR / drawn);
        double factor = Math.max(1, magnification);
        double indicated = RIGHT + Math.max(-LARGEST_DRAWN_ERROR, pass.errorMm() * scale * factor);
        return new Ruler(ticks(pass.lengthMm(), scale, show), RIGHT, Math.min(WIDTH - 10, indicated), (long) factor);
    }

    private static List<Tick> ticks(double lengthMm, double scale, Show show) {
        double step = roundUp(lengthMm / MOST_LABELS);
        List<Tick> ticks = new ArrayList<>();
        for (int i = 0; i * step / 10 <= lengthMm * (1 + 1e-9); i++) {
            double at = i * step / 10;
            ticks.add(new Tick(LEFT + at * scale, i % 10 == 0 ? show.plainLength(at) : ""));
        }
        return ticks;
    }

    private static double roundDown(double value) {
        double decade = Math.pow(10, Math.floor(Math.log10(value)));
        double digit = value / decade;
        return Math.max(1, (digit >= 5 ? 5 : digit >= 2 ? 2 : 1) * decade);
    }

    private static double roundUp(double value) {
        double decade = Math.pow(10, Math.floor(Math.log10(value)));
        double digit = value / decade;
        return (digit <= 1 ? 1 : digit <= 2 ? 2 : digit <= 5 ? 5 : 10) * decade;
    }

    /** Returns a coordinate as an attribute needs it. */
    public static String at(double coordinate) {
        return String.valueOf(Math.round(coordinate * 10) / 10.0);
    }

    /** Returns where the ruler begins. */
    public double startX() {
        return LEFT;
    }
}
