package slowproof.trial.simulator;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;

/**
 * What the sensor has made of a series' motion at any time, before counting. The error curve is integrated in
 * time from call to call in steps of at most a millisecond, so times that advance evenly are cheapest; times may
 * also go back a little. Not for use by several threads.
 */
final class SensedPath {
    /** Travel over which a start's loss and scatter come in, mm: locking on takes a little way. */
    private static final double START_TRAVEL_MM = 0.5;

    private static final double LARGEST_STEP_S = 1e-3;
    // three-point Gauss-Legendre rule on -1 to 1 (Abramowitz and Stegun table 25.4, from memory)
    private static final double NODE = Math.sqrt(0.6);
    private static final double OUTER_WEIGHT = 5.0 / 9;
    private static final double INNER_WEIGHT = 8.0 / 9;

    private final Motion motion;
    private final TrueCurve curve;
    private final SeriesRun run;
    private final double[] leftRestS;
    private final double driftMmPerS;
    private final TravelWalk[] walks;
    // sums over the passes before pass i: travel scatter, starts and ratios, and time at rest
    private final double[] addedBeforeMm;
    private final double[] restBeforeS;

    private double timeS;
    private double curveMm;

    SensedPath(Motion motion, TrueCurve curve, SeriesRun run, double driftMmPerS, UniformRandomProvider generator) {
        this.motion = motion;
        this.curve = curve;
        this.run = run;
        this.driftMmPerS = driftMmPerS;
        List<Motion.Move> moves = motion.moves();
        int n = moves.size();
        leftRestS = new double[n];
        walks = new TravelWalk[n];
        addedBeforeMm = new double[n + 1];
        restBeforeS = new double[n];
        RandomStreams.Normal normal = RandomStreams.normal(generator);
        double atRestS = 0;
        double restS = 0;
        for (int i = 0; i < n; i++) {
            Motion.Move move = moves.get(i);
            SeriesRun.Pass pass = run.passes().get(i);
            leftRestS[i] = move.startS();
            restS += move.startS() - atRestS;
            restBeforeS[i] = restS;
            atRestS = move.endS();
            walks[i] = TravelWalk.draw(
                    Math.abs(pass.travelMm()), run.model().travelScatterMmPerSqrtMm(), pass.travelScatterMm(), normal);
            addedBeforeMm[i + 1] = addedBeforeMm[i] + addedMm(i, Math.abs(pass.travelMm()));
        }
    }

    /** Returns the sensed position at a time of the motion, mm. */
    double sensedMm(double atS) {
        advance(atS);
        int pass = passAt(atS);
        double restS = atS;
        double addedMm = 0;
        if (pass >= 0) {
            Motion.Move move = motion.moves().get(pass);
            double travelledMm = Math.abs(motion.positionMm(Math.min(atS, move.endS())) - move.startMm());
            addedMm = addedBeforeMm[pass] + addedMm(pass, travelledMm);
            restS = restBeforeS[pass] + Math.max(0, atS - move.endS());
        }
        return run.phaseMm() + motion.positionMm(atS) + curveMm + addedMm + driftMmPerS * Math.max(0, restS);
    }

    /** Returns the number of the pass that is under way or was made last, -1 before the first. */
    int passAt(double atS) {
        int found = Arrays.binarySearch(leftRestS, atS);
        return found >= 0 ? found : -found - 2;
    }

    /** The signed length that a pass has added after part of its travel, besides the curve's part. */
    private double addedMm(int i, double travelledMm) {
        SeriesRun.Pass pass = run.passes().get(i);
        double started = Math.min(1, travelledMm / Math.min(START_TRAVEL_MM, Math.abs(pass.travelMm())));
        double error = started * (pass.startLossMm() + pass.startScatterMm())
                + travelledMm * (pass.returnExtraRatio() + pass.ownRatio())
                + walks[i].atMm(travelledMm);
        return pass.direction() * error;
    }

    private void advance(double toS) {
        int steps = (int) Math.max(1, Math.ceil(Math.abs(toS - timeS) / LARGEST_STEP_S));
        double half = 0.5 * (toS - timeS) / steps;
        double sum = 0;
        for (int i = 0; i < steps; i++) {
            double middle = timeS + (2 * i + 1) * half;
            sum += OUTER_WEIGHT * (rate(middle - NODE * half) + rate(middle + NODE * half))
                    + INNER_WEIGHT * rate(middle);
        }
        curveMm += half * sum;
        timeS = toS;
    }

    private double rate(double atS) {
        double v = motion.speedMmPerS(atS);
        return v == 0 ? 0 : curve.at(Math.abs(v)) * v;
    }
}
