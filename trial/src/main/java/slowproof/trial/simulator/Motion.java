package slowproof.trial.simulator;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * Position and speed of an axis or a web as exact functions of time: a sequence of stretches of constant jerk,
 * starting at time 0 at position 0. Speeds are signed. Immutable.
 */
public final class Motion {
    // One stretch from startS[i] to startS[i + 1]; all arrays but startS have one entry per stretch.
    private final double[] startS;
    private final double[] positionMm;
    private final double[] speedMmPerS;
    private final double[] accelerationMmPerS2;
    private final double[] jerkMmPerS3;
    private final double endPositionMm;
    private final List<Move> moves;

    private Motion(Builder builder) {
        int n = builder.stretches.size();
        startS = new double[n + 1];
        positionMm = new double[n];
        speedMmPerS = new double[n];
        accelerationMmPerS2 = new double[n];
        jerkMmPerS3 = new double[n];
        for (int i = 0; i < n; i++) {
            Stretch stretch = builder.stretches.get(i);
            startS[i] = stretch.startS;
            positionMm[i] = stretch.positionMm;
            speedMmPerS[i] = stretch.speedMmPerS;
            accelerationMmPerS2[i] = stretch.accelerationMmPerS2;
            jerkMmPerS3[i] = stretch.jerkMmPerS3;
        }
        startS[n] = builder.timeS;
        endPositionMm = builder.positionMm;
        moves = List.copyOf(builder.moves);
    }

    /** Returns a builder that stands at position 0 at time 0. */
    public static Builder builder() {
        return new Builder();
    }

    /**
     * A move between two moments of rest. The direction does not change within it.
     *
     * @param startS time at which it leaves rest, s
     * @param endS time at which it is at rest again, or the motion ends, s
     * @param startMm position at its start, mm
     * @param endMm position at its end, mm
     */
    public record Move(double startS, double endS, double startMm, double endMm) {
        /** Returns the signed travel, mm. */
        public double travelMm() {
            return endMm - startMm;
        }
    }

    /** Returns the duration, s. */
    public double durationS() {
        return startS[startS.length - 1];
    }

    /** Returns the moves in order of time; a reversal on the fly ends one move and starts the next. */
    public List<Move> moves() {
        return moves;
    }

    /** Returns the highest magnitude of the speed within one of the moves, mm/s. */
    double peakMmPerS(Move move) {
        double peak = Math.abs(speedMmPerS(move.startS));
        // the speed is monotone within a stretch, so its extremes are where stretches meet
        for (int i = stretchAt(move.startS); i < positionMm.length && startS[i] < move.endS; i++) {
            peak = Math.max(peak, Math.abs(speedMmPerS[i]));
        }
        return peak;
    }

    /** Returns the position in mm at a time in s; the ends are held before the start and after the end. */
    public double positionMm(double timeS) {
        if (timeS <= 0) {
            return 0;
        }
        if (timeS >= durationS()) {
            return endPositionMm;
        }
        int i = stretchAt(timeS);
        double t = timeS - startS[i];
        return positionMm[i]
                + t * (speedMmPerS[i] + t * (0.5 * accelerationMmPerS2[i] + t * (1.0 / 6.0) * jerkMmPerS3[i]));
    }

    /** Returns the signed speed in mm/s at a time in s; 0 outside the motion. */
    public double speedMmPerS(double timeS) {
        if (timeS < 0 || timeS >= durationS()) {
            return 0;
        }
        int i = stretchAt(timeS);
        return speed(i, timeS - startS[i]);
    }

    /**
     * Integrates a function of the magnitude of the speed over time, by adaptive Gauss-Legendre quadrature within
     * each stretch.
     *
     * @param ofSpeed function of the magnitude of the speed in mm/s; for the error of a stretch of travel,
     *     eps(v) v, for a share of time, the share at v
     * @param fromS start, s
     * @param toS end, s, not before the start; the part outside the motion counts nothing
     * @return the integral, in the function's unit times s; within about 1e-9 of that unit per stretch
     */
    public double integrate(DoubleUnaryOperator ofSpeed, double fromS, double toS) {
        if (!(toS >= fromS)) {
            throw new IllegalArgumentException("integration must not run backwards: " + fromS + " s to " + toS + " s");
        }
        double from = Math.max(0, fromS);
        double to = Math.min(durationS(), toS);
        double sum = 0;
        for (int i = from < to ? stretchAt(from) : startS.length; i < positionMm.length && startS[i] < to; i++) {
            sum += integrateStretch(ofSpeed, i, Math.max(from, startS[i]), Math.min(to, startS[i + 1]));
        }
        return sum;
    }

    private double integrateStretch(DoubleUnaryOperator ofSpeed, int i, double fromS, double toS) {
        double from = fromS - startS[i];
        double to = toS - startS[i];
        if (accelerationMmPerS2[i] == 0 && jerkMmPerS3[i] == 0) {
            return ofSpeed.applyAsDouble(Math.abs(speedMmPerS[i])) * (to - from);
        }
        DoubleUnaryOperator ofTime = t -> ofSpeed.applyAsDouble(Math.abs(speed(i, t)));
        boolean slowFirst = Math.abs(speed(i, from)) <= Math.abs(speed(i, to));
        return slowFirst
                ? Quadrature.towardsStart(ofTime, from, to)
                : Quadrature.towardsStart(t -> ofTime.applyAsDouble(from + to - t), from, to);
    }

    private double speed(int i, double t) {
        return speedMmPerS[i] + t * (accelerationMmPerS2[i] + 0.5 * t * jerkMmPerS3[i]);
    }

    private int stretchAt(double timeS) {
        int found = Arrays.binarySearch(startS, timeS);
        int i = found >= 0 ? found : -found - 2;
        // an empty stretch shares its start with the next one; the search may return either
        return Math.min(i, positionMm.length - 1);
    }

    private record Stretch(
            double startS, double positionMm, double speedMmPerS, double accelerationMmPerS2, double jerkMmPerS3) {}

    /** Puts a motion together, piece by piece. Not for use by several threads. */
    public static final class Builder {
        private final List<Stretch> stretches = new ArrayList<>();
        private final List<Move> moves = new ArrayList<>();
        private double timeS;
        private double positionMm;
        private double speedMmPerS;
        private double moveStartS;
        private double moveStartMm;

        private Builder() {}

        /** Returns the position reached so far, mm. */
        public double positionMm() {
            return positionMm;
        }

        /** Returns the speed reached so far, signed, mm/s. */
        public double speedMmPerS() {
            return speedMmPerS;
        }

        /**
         * Stands still.
         *
         * @param durationS s, at least 0
         * @throws IllegalStateException if the motion is not at rest
         */
        public Builder dwell(double durationS) {
            Check.notNegative(durationS, "dwell");
            if (speedMmPerS != 0) {
                throw new IllegalStateException("a dwell needs rest, the speed is " + speedMmPerS + " mm/s");
            }
            stretch(durationS, 0, 0, 0);
            return this;
        }

        /**
         * Moves from rest to rest; a stroke too short for the programmed speed gives a triangular move.
         *
         * @param strokeMm signed travel, mm, not 0
         * @param drive speed and ramps
         * @throws IllegalStateException if the motion is not at rest
         */
        public Builder move(double strokeMm, Drive drive) {
            if (!(Math.abs(strokeMm) > 0)) {
                throw new IllegalArgumentException("stroke must not be 0: " + strokeMm);
            }
            if (speedMmPerS != 0) {
                throw new IllegalStateException("a move starts from rest, the speed is " + speedMmPerS + " mm/s");
            }
            double direction = Math.signum(strokeMm);
            double targetMm = positionMm + strokeMm;
            double peak = drive.peakMmPerS(Math.abs(strokeMm));
            double slowing = 0.5 * peak * Drive.rampS(peak, drive.decelerationMmPerS2(), drive.jerkMmPerS3());
            rampTo(direction * peak, drive.accelerationMmPerS2(), drive.jerkMmPerS3());
            double plateau = Math.abs(targetMm - positionMm) - slowing;
            if (plateau > 0) {
                cruise(plateau);
            }
            rampTo(0, drive.decelerationMmPerS2(), drive.jerkMmPerS3());
            // rounding of the ramps: less than 1e-12 of the stroke
            positionMm = targetMm;
            Move last = moves.remove(moves.size() - 1);
            moves.add(new Move(last.startS, last.endS, last.startMm, targetMm));
            return this;
        }

        /** Changes the speed with constant acceleration, see {@link #rampTo(double, double, double)}. */
        public Builder rampTo(double targetMmPerS, double accelerationMmPerS2) {
            return rampTo(targetMmPerS, accelerationMmPerS2, Double.POSITIVE_INFINITY);
        }

        /**
         * Changes the speed. A change of direction is made of two ramps that meet at rest.
         *
         * @param targetMmPerS signed speed to reach, mm/s
         * @param accelerationMmPerS2 largest magnitude of the acceleration, mm/s2, positive
         * @param jerkMmPerS3 largest magnitude of the jerk, mm/s3, positive; infinite for constant acceleration
         */
        public Builder rampTo(double targetMmPerS, double accelerationMmPerS2, double jerkMmPerS3) {
            Check.finite(targetMmPerS, "speed");
            Check.positive(accelerationMmPerS2, "acceleration");
            if (!(jerkMmPerS3 > 0)) {
                throw new IllegalArgumentException("jerk must be positive: " + jerkMmPerS3);
            }
            if (speedMmPerS * targetMmPerS < 0) {
                rampTo(0, accelerationMmPerS2, jerkMmPerS3);
            }
            double change = targetMmPerS - speedMmPerS;
            if (change == 0) {
                return this;
            }
            double sign = Math.signum(change);
            if (jerkMmPerS3 == Double.POSITIVE_INFINITY) {
                stretch(Math.abs(change) / accelerationMmPerS2, sign * accelerationMmPerS2, 0, targetMmPerS);
                return this;
            }
            double duration = Drive.rampS(Math.abs(change), accelerationMmPerS2, jerkMmPerS3);
            double jerkS = Math.min(accelerationMmPerS2 / jerkMmPerS3, 0.5 * duration);
            double peak = jerkMmPerS3 * jerkS;
            double bend = 0.5 * peak * jerkS;
            double first = speedMmPerS + sign * bend;
            double second = targetMmPerS - sign * bend;
            stretch(jerkS, 0, sign * jerkMmPerS3, first);
            if (duration > 2 * jerkS) {
                stretch(duration - 2 * jerkS, sign * peak, 0, second);
            }
            stretch(jerkS, sign * peak, -sign * jerkMmPerS3, targetMmPerS);
            return this;
        }

        /**
         * Keeps the speed over a distance.
         *
         * @param distanceMm mm, at least 0, travelled in the present direction
         * @throws IllegalStateException if the motion is at rest
         */
        public Builder cruise(double distanceMm) {
            Check.notNegative(distanceMm, "distance");
            if (speedMmPerS == 0) {
                throw new IllegalStateException("cannot travel " + distanceMm + " mm at rest");
            }
            stretch(distanceMm / Math.abs(speedMmPerS), 0, 0, speedMmPerS);
            return this;
        }

        /** Keeps the speed, which may be 0, for a time in s, at least 0. */
        public Builder cruiseFor(double durationS) {
            Check.notNegative(durationS, "duration");
            stretch(durationS, 0, 0, speedMmPerS);
            return this;
        }

        /** Returns the motion; a move still under way ends with it. */
        public Motion build() {
            List<Move> finished = List.copyOf(moves);
            if (speedMmPerS != 0) {
                moves.add(new Move(moveStartS, timeS, moveStartMm, positionMm));
            }
            Motion motion = new Motion(this);
            moves.clear();
            moves.addAll(finished);
            return motion;
        }

        private void stretch(double durationS, double acceleration, double jerk, double endSpeed) {
            if (durationS == 0) {
                return;
            }
            boolean startsMove = speedMmPerS == 0 && (acceleration != 0 || jerk != 0);
            if (startsMove) {
                moveStartS = timeS;
                moveStartMm = positionMm;
            }
            stretches.add(new Stretch(timeS, positionMm, speedMmPerS, acceleration, jerk));
            boolean moving = speedMmPerS != 0 || startsMove;
            timeS += durationS;
            positionMm += durationS * (speedMmPerS + durationS * (0.5 * acceleration + durationS * (1.0 / 6.0) * jerk));
            speedMmPerS = endSpeed;
            if (moving && endSpeed == 0) {
                moves.add(new Move(moveStartS, timeS, moveStartMm, positionMm));
            }
        }
    }
}
