package slowproof.trial.forecast;

import java.util.List;
import java.util.TreeSet;
import slowproof.metrology.Refinement;
import slowproof.metrology.Refinement.Answer;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineNotPossibleException;

/**
 * The tolerance that can be promised against the creep speed. A model is made for each speed, so speeds are few: nine to
 * begin with, more where the promise bends, and where it begins or stops to be covered or the cycle to fit its piece.
 */
public final class PromiseCurve {
    /** Most speeds that are tried. */
    public static final int MOST = 33;

    private static final int FIRST = 9;

    /** Of the range of the promise's logarithm. */
    private static final double SHARE = 0.005;

    /** Two speeds closer than this are one. */
    private static final double SAME = 1e-6;

    private PromiseCurve() {}

    /**
     * What can be promised at a creep speed.
     *
     * @param creepMmPerS creep speed in mm/s
     * @param toleranceMm tolerance, plus or minus mm; NaN where the cycle cannot be driven so
     * @param covered whether the trial covers the line at this speed
     */
    public record Point(double creepMmPerS, double toleranceMm, boolean covered) {}

    /**
     * Returns the promise over the tested speeds, the line's own creep speed included; empty where the line has no creep
     * or the trial no two speeds.
     *
     * @param evidence what a trial says
     * @param line the line
     * @param seed seed
     */
    public static List<Point> of(LineEvidence evidence, Line line, long seed) {
        LineCurves curves = LineCurves.of(evidence);
        Double creep = CycleChanges.creepMmPerS(line.cycle());
        if (curves == null || creep == null) {
            return List.of();
        }
        double low = Math.min(creep, evidence.slowestMmPerS());
        double high = Math.max(creep, evidence.fastestMmPerS());
        if (!(high > low)) {
            return List.of();
        }
        Line given;
        try {
            given = line.restAtFastestHold();
        } catch (LineNotPossibleException e) {
            // what cannot be driven as it is has no promise to vary
            return List.of();
        }
        return Refinement.of(
                        x -> promise(evidence, curves, given, Math.exp(x), seed),
                        starts(low, high, creep, evidence.slowestMmPerS(), evidence.fastestMmPerS()),
                        SHARE,
                        MOST)
                .stream()
                .map(point -> new Point(Math.exp(point.x()), Math.exp(point.y()), point.state()))
                .toList();
    }

    /** Even in the logarithm; the speed as it is and the ends of what was tried are among them. */
    private static double[] starts(double low, double high, double... asked) {
        TreeSet<Double> all = new TreeSet<>();
        for (int i = 0; i < FIRST; i++) {
            all.add(Math.log(low) + i * Math.log(high / low) / (FIRST - 1));
        }
        for (double speed : asked) {
            double x = Math.log(speed);
            Double nearest = all.floor(x + SAME);
            if (nearest == null || nearest < x - SAME) {
                all.add(x);
            }
        }
        return all.stream().mapToDouble(x -> x).toArray();
    }

    private static Answer promise(LineEvidence evidence, LineCurves curves, Line line, double speed, long seed) {
        try {
            Line changed = line.withCycle(CycleChanges.withCreep(line.cycle(), speed));
            LineModel model = LineModel.of(evidence, curves, changed, seed);
            boolean covered = model.coverage.gaps().isEmpty();
            return new Answer(Math.log(new Judgement(model).promisedToleranceMm()), covered);
        } catch (LineNotPossibleException e) {
            // the ramps do not fit the piece at this speed
            return new Answer(Double.NaN, false);
        }
    }
}
