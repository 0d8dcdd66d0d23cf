package slowproof.trial.slips;

/** Judges the ratio of indication to reference, both signed: 1 for a sensor without error. */
final class Ratios {
    /** An error beyond this is a slip before it is a sensor. */
    private static final double ORDINARY_LOW = 0.5;

    private static final double ORDINARY_HIGH = 1.5;
    private static final double CLOSE = 0.2;
    private static final double NOTHING = 0.05;
    private static final double UNIT_TOLERANCE = 0.05;

    /** Ratios of units that are mistaken for each other: inch, foot, and powers of ten of the metre. */
    private static final double[] UNITS = {25.4, 1 / 25.4, 304.8, 1 / 304.8, 10, 0.1, 100, 0.01, 1000, 0.001};

    private static final double[] DIGITS = {10, 0.1, 100, 0.01};

    private Ratios() {}

    static boolean ordinary(double ratio) {
        return ratio > ORDINARY_LOW && ratio < ORDINARY_HIGH;
    }

    static boolean near(double ratio, double value) {
        return Math.abs(ratio - value) <= CLOSE;
    }

    /** Tells whether next to nothing was indicated. */
    static boolean nothing(double ratio) {
        return Math.abs(ratio) <= NOTHING;
    }

    /** Returns the ratio of units that a ratio is close to, or 0. */
    static double unit(double ratio) {
        return closest(ratio, UNITS);
    }

    /** Returns the power of ten that a ratio is close to when the decimal sign slipped, or 0. */
    static double digit(double ratio) {
        return closest(ratio, DIGITS);
    }

    private static double closest(double ratio, double[] candidates) {
        for (double candidate : candidates) {
            if (Math.abs(ratio / candidate - 1) <= UNIT_TOLERANCE) {
                return candidate;
            }
        }
        return 0;
    }
}
