package slowproof.trial.simulator;

/** Argument checks of the simulator. All are written so that NaN fails. */
final class Check {
    private Check() {}

    static double positive(double value, String what) {
        if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(what + " must be positive and finite: " + value);
        }
        return value;
    }

    static double notNegative(double value, String what) {
        if (!(value >= 0 && value < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(what + " must be finite and not negative: " + value);
        }
        return value;
    }

    static double finite(double value, String what) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(what + " must be finite: " + value);
        }
        return value;
    }

    /** A share of a whole: 0 up to but not including 1. */
    static double share(double value, String what) {
        if (!(value >= 0 && value < 1)) {
            throw new IllegalArgumentException(what + " must be at least 0 and below 1: " + value);
        }
        return value;
    }

    static int atLeast(int value, int least, String what) {
        if (value < least) {
            throw new IllegalArgumentException(what + " must be at least " + least + ": " + value);
        }
        return value;
    }
}
