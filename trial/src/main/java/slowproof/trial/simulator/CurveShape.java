package slowproof.trial.simulator;

/**
 * How an error that exists only at low speed fades with speed. Every single-step shape is 1 towards standstill,
 * 0 at high speed, one half at the knee, and has there the slope of a logistic of the given width,
 * -1/(4 width); they differ in their tails. The two-step shape falls in two logistic steps, the upper one at
 * the knee.
 */
public enum CurveShape {
    /** 1 / (1 + exp((v - knee) / width)); exponential tail. */
    LOGISTIC {
        @Override
        double remaining(double speedMmPerS, double kneeMmPerS, double widthMmPerS) {
            return 1 / (1 + Math.exp((speedMmPerS - kneeMmPerS) / widthMmPerS));
        }
    },
    /** 1 / (1 + (v / knee)^(knee / width)); power-law tail. */
    HILL {
        @Override
        double remaining(double speedMmPerS, double kneeMmPerS, double widthMmPerS) {
            return 1 / (1 + Math.pow(speedMmPerS / kneeMmPerS, kneeMmPerS / widthMmPerS));
        }
    },
    /** 1 - exp(-ln 2 exp(-(v - knee) / (2 ln 2 width))); exponential tail, slower than it rises. */
    GOMPERTZ {
        @Override
        double remaining(double speedMmPerS, double kneeMmPerS, double widthMmPerS) {
            return -Math.expm1(-LN2 * Math.exp((kneeMmPerS - speedMmPerS) / (2 * LN2 * widthMmPerS)));
        }
    },
    /** exp(-ln 2 (v / knee)^(knee / (2 ln 2 width))); the steepest tail. */
    STRETCHED_EXPONENTIAL {
        @Override
        double remaining(double speedMmPerS, double kneeMmPerS, double widthMmPerS) {
            return Math.exp(-LN2 * Math.pow(speedMmPerS / kneeMmPerS, kneeMmPerS / (2 * LN2 * widthMmPerS)));
        }
    },
    /** 40 % of the departure fade at the knee, 60 % at 0.55 of the knee with the same share as width. */
    TWO_STEP {
        @Override
        double remaining(double speedMmPerS, double kneeMmPerS, double widthMmPerS) {
            double upper = LOGISTIC.remaining(speedMmPerS, kneeMmPerS, widthMmPerS);
            double lower = LOGISTIC.remaining(speedMmPerS, LOWER_KNEE * kneeMmPerS, LOWER_KNEE * widthMmPerS);
            return UPPER_STEP * upper + (1 - UPPER_STEP) * lower;
        }
    };

    private static final double LN2 = Math.log(2);
    private static final double UPPER_STEP = 0.4;
    private static final double LOWER_KNEE = 0.55;

    /**
     * Returns the share of the departure that remains at a speed.
     *
     * @param speedMmPerS mm/s, at least 0
     * @param kneeMmPerS mm/s, positive
     * @param widthMmPerS mm/s, positive
     * @return 0 to 1, falling with speed
     */
    abstract double remaining(double speedMmPerS, double kneeMmPerS, double widthMmPerS);
}
