package slowproof.trial.simulator;

/**
 * A quantity that has one value at high speed and another at low speed, with a logistic passage between them.
 *
 * @param fastValue value at high speed
 * @param slowValue value towards standstill
 * @param kneeMmPerS speed of the middle of the passage, mm/s, positive
 * @param kneeWidthShare width of the passage as a share of its speed, ratio, positive
 */
public record SlowRise(double fastValue, double slowValue, double kneeMmPerS, double kneeWidthShare) {
    /** Checks the parts. */
    public SlowRise {
        Check.finite(fastValue, "value at high speed");
        Check.finite(slowValue, "value at low speed");
        Check.positive(kneeMmPerS, "knee");
        Check.positive(kneeWidthShare, "knee width");
    }

    /** Returns a quantity that does not depend on speed. */
    public static SlowRise constant(double value) {
        return new SlowRise(value, value, 1, 1);
    }

    /** Returns the value at a speed in mm/s, at least 0. */
    public double at(double speedMmPerS) {
        return fastValue
                + (slowValue - fastValue)
                        * CurveShape.LOGISTIC.remaining(speedMmPerS, kneeMmPerS, kneeWidthShare * kneeMmPerS);
    }
}
