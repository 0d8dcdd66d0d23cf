package slowproof.trial.line;

import java.util.Arrays;
import java.util.List;
import slowproof.trial.line.LineNotPossibleException.Why;

/** Drives the steps of a cycle and records the speed. One use, one thread. */
final class CycleMotion {
    /** Straight pieces per phase of constant jerk. */
    private static final int JERK_PIECES = 64;

    private static final double AT_REST = 1e-9;
    private static final double FITS_MM = 1e-3;

    private double[] timeS = new double[64];
    private double[] speedMmPerS = new double[64];
    private int size = 1;
    private double positionMm;
    private double restMm;

    private CycleMotion(double restMm) {
        this.restMm = restMm;
    }

    /**
     * Returns the profile of a cycle over a travel.
     *
     * @param steps steps, from rest
     * @param travelMm net travel of the cycle in mm, above zero
     * @throws LineNotPossibleException if they cannot be driven or do not fit the travel
     */
    static LineProfile profile(List<LineStep> steps, double travelMm) {
        int rests = 0;
        for (int i = 0; i < steps.size(); i++) {
            rests += steps.get(i) instanceof LineStep.HoldRest ? 1 : 0;
            if (rests > 1) {
                throw new LineNotPossibleException(Why.LINE_TWO_RESTS, i);
            }
        }
        CycleMotion without = new CycleMotion(0);
        without.drive(steps);
        double rest = travelMm - without.positionMm;
        if (rest < -FITS_MM) {
            throw new LineNotPossibleException(Why.LINE_LONGER_THAN_PIECE, -1, without.positionMm, travelMm);
        }
        if (rests == 0 && rest > FITS_MM) {
            throw new LineNotPossibleException(Why.LINE_SHORTER_THAN_PIECE, -1, without.positionMm, travelMm);
        }
        CycleMotion motion = new CycleMotion(Math.max(0, rest));
        motion.drive(steps);
        if (Math.abs(motion.speed()) > AT_REST) {
            throw new LineNotPossibleException(Why.LINE_NOT_CLOSED, -1, motion.speed());
        }
        return LineProfile.of(Arrays.copyOf(motion.timeS, motion.size), Arrays.copyOf(motion.speedMmPerS, motion.size));
    }

    /** Returns what is left of a travel beside all other steps, in mm; below 0 where they are longer. */
    static double restMm(List<LineStep> steps, double travelMm) {
        CycleMotion without = new CycleMotion(0);
        without.drive(steps);
        return travelMm - without.positionMm;
    }

    private void drive(List<LineStep> steps) {
        for (int i = 0; i < steps.size(); i++) {
            step(steps.get(i), i);
        }
    }

    private void step(LineStep step, int place) {
        if (step instanceof LineStep.RampTo ramp) {
            ramp(ramp);
        } else if (step instanceof LineStep.HoldMm hold) {
            hold(hold.distanceMm(), place);
        } else if (step instanceof LineStep.HoldS hold) {
            hold(Math.abs(speed()) * hold.durationS(), place);
        } else if (step instanceof LineStep.HoldRest) {
            // in the first run nothing is left yet, and a hold of nothing is allowed at any speed but rest
            hold(restMm, place);
        } else if (step instanceof LineStep.Stop stop) {
            requireRest(place);
            add(0, stop.durationS());
        } else if (step instanceof LineStep.Reverse reverse) {
            requireRest(place);
            double peak =
                    Math.min(reverse.speedMmPerS(), Math.sqrt(reverse.distanceMm() * reverse.accelerationMmPerS2()));
            ramp(LineStep.RampTo.of(-peak, reverse.accelerationMmPerS2()));
            hold(Math.max(0, reverse.distanceMm() - peak * peak / reverse.accelerationMmPerS2()), place);
            ramp(LineStep.RampTo.of(0, reverse.accelerationMmPerS2()));
        } else if (step instanceof LineStep.Repeat repeat) {
            for (int n = 0; n < repeat.times(); n++) {
                repeat.steps().forEach(inner -> step(inner, place));
            }
        }
    }

    private void requireRest(int place) {
        if (Math.abs(speed()) > AT_REST) {
            throw new LineNotPossibleException(Why.LINE_STOP_IN_MOTION, place, speed());
        }
    }

    private void hold(double distanceMm, int place) {
        if (Math.abs(speed()) <= AT_REST) {
            throw new LineNotPossibleException(Why.LINE_HOLD_AT_REST, place);
        }
        add(speed(), distanceMm / Math.abs(speed()));
    }

    private void ramp(LineStep.RampTo ramp) {
        double from = speed();
        double change = ramp.speedMmPerS() - from;
        double acceleration = ramp.accelerationMmPerS2();
        Double jerk = ramp.jerkMmPerS3();
        if (change == 0) {
            return;
        }
        if (jerk == null) {
            add(ramp.speedMmPerS(), Math.abs(change) / acceleration);
            return;
        }
        // S-shape: jerk up, constant, jerk down; both jerk phases change the speed by the same
        double size = Math.abs(change);
        double phase = Math.min(acceleration / jerk, Math.sqrt(size / jerk));
        double inPhase = 0.5 * jerk * phase * phase;
        double middle = (size - 2 * inPhase) / (jerk * phase);
        double sign = Math.signum(change);
        for (int i = 1; i <= JERK_PIECES; i++) {
            double share = (double) i / JERK_PIECES;
            add(from + sign * inPhase * share * share, phase / JERK_PIECES);
        }
        if (middle > 0) {
            add(from + sign * (size - inPhase), middle);
        }
        for (int i = JERK_PIECES - 1; i >= 0; i--) {
            double share = (double) i / JERK_PIECES;
            add(from + sign * (size - inPhase * share * share), phase / JERK_PIECES);
        }
    }

    private double speed() {
        return speedMmPerS[size - 1];
    }

    private void add(double speed, double durationS) {
        if (durationS <= 0) {
            return;
        }
        if (size == timeS.length) {
            timeS = Arrays.copyOf(timeS, 2 * size);
            speedMmPerS = Arrays.copyOf(speedMmPerS, 2 * size);
        }
        timeS[size] = timeS[size - 1] + durationS;
        speedMmPerS[size] = speed;
        positionMm += 0.5 * (speedMmPerS[size - 1] + speed) * durationS;
        size++;
    }
}
