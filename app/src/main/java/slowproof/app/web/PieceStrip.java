package slowproof.app.web;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.forecast.ErrorAlong;
import slowproof.wording.LineReply;
import slowproof.wording.Wording;

/**
 * A piece as one strip, from cut to cut, the darker the more of its error is made there.
 *
 * @param shades size of the error made in each of equal parts, 0 to 1, the darkest part being 1
 * @param ticks marks of the scale below
 * @param halfFrom where the shortest stretch begins that makes half of the error
 * @param halfTo where it ends
 * @param where the same as a sentence, for those who do not see the strip
 * @param darkest what the darkest shade means, as a sentence
 */
public record PieceStrip(
        List<Double> shades, List<Ruler.Tick> ticks, double halfFrom, double halfTo, String where, String darkest) {
    /** Width of the drawing. */
    public static final double WIDTH = 640;

    /** Number of parts: a divisor of the width, so that each begins on a whole unit of the drawing. */
    private static final int PARTS = 160;

    private static final int MARKS = 4;
    private static final double PER_MM = 100;
    private static final double THOUSAND = 1000;
    private static final int DIGITS = 3;

    /** Copies the lists. */
    public PieceStrip {
        shades = List.copyOf(shades);
        ticks = List.copyOf(ticks);
        where = Show.together(where);
        darkest = Show.together(darkest);
    }

    /** Returns the width of one part. */
    public double partWidth() {
        return WIDTH / PARTS;
    }

    /** Returns how dark a part is drawn, 0 to 1. */
    public String opacity(int part) {
        return String.valueOf(Math.round(shades.get(part) * THOUSAND) / THOUSAND);
    }

    static PieceStrip of(ErrorAlong along, double lengthMm, Wording wording) {
        double[] made = along.inParts(PARTS);
        double most = 0;
        double all = 0;
        for (double part : made) {
            most = Math.max(most, part);
            all += part;
        }
        List<Double> shades = new ArrayList<>();
        for (double part : made) {
            shades.add(most > 0 ? part / most : 0);
        }
        List<Ruler.Tick> ticks = new ArrayList<>();
        for (int i = 0; i <= MARKS; i++) {
            ticks.add(new Ruler.Tick(WIDTH * i / MARKS, wording.numbers().plain(lengthMm * i / MARKS, 4)));
        }
        int[] half = shortestHalf(made, all);
        double part = lengthMm / PARTS;
        String where = all > 0
                ? wording.text(
                        "line.where",
                        wording.numbers().plain(part * half[0], DIGITS),
                        wording.numbers().plain(part * half[1], DIGITS),
                        wording.numbers().fixed(100.0 * (half[1] - half[0]) / PARTS, 0))
                : "";
        String darkest = wording.text(
                "line.darkest", LineReply.mm(most / part * PER_MM, wording), LineReply.mm(PER_MM, wording));
        return new PieceStrip(shades, ticks, WIDTH * half[0] / PARTS, WIDTH * half[1] / PARTS, where, darkest);
    }

    /** Returns first part and end of the shortest run of parts that makes at least half of the error. */
    private static int[] shortestHalf(double[] made, double all) {
        int[] best = {0, made.length};
        double sum = 0;
        int from = 0;
        for (int to = 0; to < made.length; to++) {
            sum += made[to];
            while (from < to && sum - made[from] >= all / 2) {
                sum -= made[from];
                from++;
            }
            if (sum >= all / 2 && to + 1 - from < best[1] - best[0]) {
                best = new int[] {from, to + 1};
            }
        }
        return best;
    }
}
