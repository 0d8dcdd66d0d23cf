package slowproof.trial.forecast;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.curve.CurveDraws;
import slowproof.trial.line.PieceMotion;

/**
 * Where along a piece, or the pieces of a cycle, the expected error is made.
 *
 * @param places places in order of time
 */
public record ErrorAlong(List<Place> places) {
    /** Slices of a stretch over which the speed changes all the way from or to rest. */
    private static final int SLICES = 40;

    /**
     * A moment.
     *
     * @param timeS time since the first cut, s
     * @param travelMm way travelled since then, backward counted positive, mm
     * @param speedMmPerS signed speed there, mm/s
     * @param errorMm expected error made up to there, mm
     */
    public record Place(double timeS, double travelMm, double speedMmPerS, double errorMm) {}

    /** Copies the list. */
    public ErrorAlong {
        places = List.copyOf(places);
    }

    /**
     * Follows a motion with the mean of the draws; mean start losses count at each start.
     *
     * @param curves curves of the trial
     * @param motion motion of a piece
     */
    public static ErrorAlong of(LineCurves curves, PieceMotion motion) {
        return of(curves, List.of(motion));
    }

    /**
     * Follows motions one after the other, without starting anew at the cuts between them.
     *
     * @param curves curves of the trial
     * @param motions motions of the pieces of a cycle in their order, at least one
     */
    public static ErrorAlong of(LineCurves curves, List<PieceMotion> motions) {
        Mean ahead = Mean.of(curves.forward);
        Mean back = curves.backward == curves.forward ? ahead : Mean.of(curves.backward);
        List<Place> places = new ArrayList<>();
        double begin = motions.get(0).timeS(0);
        double travel = 0;
        double error = 0;
        places.add(new Place(0, 0, motions.get(0).speedMmPerS(0), 0));
        for (PieceMotion motion : motions) {
            for (int i = 1; i < motion.size(); i++) {
                double before = motion.speedMmPerS(i - 1);
                double after = motion.speedMmPerS(i);
                if (before == 0 && after != 0) {
                    error += after > 0 ? ahead.startMm : -back.startMm;
                }
                int slices = slices(before, after);
                double step = (motion.timeS(i) - motion.timeS(i - 1)) / slices;
                for (int s = 1; s <= slices; s++) {
                    double v = before + (after - before) * (s - 0.5) / slices;
                    travel += Math.abs(v) * step;
                    error += v * step * (v < 0 ? back : ahead).at(Math.abs(v));
                    places.add(new Place(
                            motion.timeS(i - 1) + s * step - begin,
                            travel,
                            before + (after - before) * s / slices,
                            error));
                }
            }
        }
        return new ErrorAlong(places);
    }

    /** A hold or a rest is one slice, a ramp from rest has all of them, the short ramps of a log or a jerk few. */
    private static int slices(double before, double after) {
        double larger = Math.max(Math.abs(before), Math.abs(after));
        return larger == 0 ? 1 : Math.max(1, (int) Math.ceil(SLICES * Math.abs(after - before) / larger));
    }

    /** Mean of the draws of one curve. */
    private static final class Mean {
        final double startMm;
        private final CurveDraws draws;
        private final double[] eps;

        private Mean(CurveDraws draws, double[] eps, double startMm) {
            this.draws = draws;
            this.eps = eps;
            this.startMm = startMm;
        }

        static Mean of(CurveDraws draws) {
            double start = 0;
            for (int i = 0; i < draws.count(); i++) {
                start += draws.startMm(i) / draws.count();
            }
            return new Mean(draws, draws.meanEps(), start);
        }

        double at(double speed) {
            int last = eps.length - 1;
            if (speed <= draws.nodeMmPerS(0)) {
                return eps[0];
            }
            for (int k = 0; k < last; k++) {
                double next = draws.nodeMmPerS(k + 1);
                if (speed <= next) {
                    double share = Math.log(speed / draws.nodeMmPerS(k)) / Math.log(next / draws.nodeMmPerS(k));
                    return eps[k] * (1 - share) + eps[k + 1] * share;
                }
            }
            return eps[last];
        }
    }

    /**
     * Returns the sizes of the errors made in equal parts of the way, mm.
     *
     * @param parts number of parts, at least 1
     */
    public double[] inParts(int parts) {
        double[] made = new double[parts];
        double all = places.get(places.size() - 1).travelMm();
        for (int i = 1; i < places.size(); i++) {
            double from = all > 0 ? parts * places.get(i - 1).travelMm() / all : 0;
            double to = all > 0 ? parts * places.get(i).travelMm() / all : 0;
            double error = places.get(i).errorMm() - places.get(i - 1).errorMm();
            int first = (int) Math.min(parts - 1, from);
            int last = (int) Math.min(parts - 1, to);
            for (int k = first; k <= last; k++) {
                double share = to > from ? (Math.min(to, k + 1) - Math.max(from, k)) / (to - from) : 1;
                made[k] += error * Math.max(0, share);
            }
        }
        for (int k = 0; k < parts; k++) {
            made[k] = Math.abs(made[k]);
        }
        return made;
    }
}
