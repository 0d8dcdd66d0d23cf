package slowproof.trial.simulator;

/**
 * How an axis performs a move.
 *
 * @param speedMmPerS programmed speed, mm/s, positive; a short move does not reach it
 * @param accelerationMmPerS2 largest acceleration when speeding up, mm/s2, positive
 * @param decelerationMmPerS2 largest deceleration when slowing down, mm/s2, positive
 * @param jerkMmPerS3 largest rate of change of the acceleration, mm/s3, positive; infinite for ramps of constant
 *     acceleration
 */
public record Drive(double speedMmPerS, double accelerationMmPerS2, double decelerationMmPerS2, double jerkMmPerS3) {
    /** Checks the parts. */
    public Drive {
        Check.positive(speedMmPerS, "speed");
        Check.positive(accelerationMmPerS2, "acceleration");
        Check.positive(decelerationMmPerS2, "deceleration");
        if (!(jerkMmPerS3 > 0)) {
            throw new IllegalArgumentException("jerk must be positive: " + jerkMmPerS3);
        }
    }

    /** Returns a drive with ramps of one constant acceleration, up and down. */
    public static Drive of(double speedMmPerS, double accelerationMmPerS2) {
        return new Drive(speedMmPerS, accelerationMmPerS2, accelerationMmPerS2, Double.POSITIVE_INFINITY);
    }

    /** Returns a copy with another deceleration, mm/s2. */
    public Drive withDeceleration(double mmPerS2) {
        return new Drive(speedMmPerS, accelerationMmPerS2, mmPerS2, jerkMmPerS3);
    }

    /** Returns a copy with S-shaped ramps of this jerk, mm/s3. */
    public Drive withJerk(double mmPerS3) {
        return new Drive(speedMmPerS, accelerationMmPerS2, decelerationMmPerS2, mmPerS3);
    }

    /** Returns a copy with another programmed speed, mm/s. */
    public Drive withSpeed(double mmPerS) {
        return new Drive(mmPerS, accelerationMmPerS2, decelerationMmPerS2, jerkMmPerS3);
    }

    /**
     * Returns the speed that a move from rest to rest reaches.
     *
     * @param strokeMm length of the move, mm, positive
     * @return mm/s, at most the programmed speed
     */
    public double peakMmPerS(double strokeMm) {
        Check.positive(strokeMm, "stroke");
        if (rampsMm(speedMmPerS) <= strokeMm) {
            return speedMmPerS;
        }
        if (jerkMmPerS3 == Double.POSITIVE_INFINITY) {
            return Math.sqrt(2
                    * strokeMm
                    * accelerationMmPerS2
                    * decelerationMmPerS2
                    / (accelerationMmPerS2 + decelerationMmPerS2));
        }
        double low = 0;
        double high = speedMmPerS;
        while (high - low > 1e-14 * high) {
            double middle = 0.5 * (low + high);
            if (rampsMm(middle) <= strokeMm) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** Travel of both ramps between rest and a speed; both S-shaped and plain ramps have half that speed on average. */
    private double rampsMm(double peakMmPerS) {
        return 0.5
                * peakMmPerS
                * (rampS(peakMmPerS, accelerationMmPerS2, jerkMmPerS3)
                        + rampS(peakMmPerS, decelerationMmPerS2, jerkMmPerS3));
    }

    /** Duration of a ramp that changes the speed by this much. */
    static double rampS(double changeMmPerS, double accelerationMmPerS2, double jerkMmPerS3) {
        if (jerkMmPerS3 == Double.POSITIVE_INFINITY) {
            return changeMmPerS / accelerationMmPerS2;
        }
        boolean reachesAcceleration = changeMmPerS * jerkMmPerS3 >= accelerationMmPerS2 * accelerationMmPerS2;
        return reachesAcceleration
                ? changeMmPerS / accelerationMmPerS2 + accelerationMmPerS2 / jerkMmPerS3
                : 2 * Math.sqrt(changeMmPerS / jerkMmPerS3);
    }
}
