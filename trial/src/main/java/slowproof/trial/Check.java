package slowproof.trial;

/** Argument checks of this module; every condition is written so that NaN fails. */
public final class Check {
    private Check() {}

    /**
     * Returns a value that must be finite and above zero.
     *
     * @param value the value, in {@code unit}
     * @param what what it is, for the message
     * @param unit its unit, for the message
     * @throws IllegalArgumentException if the value is zero, negative, infinite or NaN
     */
    public static double positive(double value, String what, String unit) {
        if (!(value > 0) || Double.isInfinite(value)) {
            throw new IllegalArgumentException(what + " must be above zero, found " + value + " " + unit);
        }
        return value;
    }

    /**
     * Returns a value that must be finite and not negative.
     *
     * @param value the value, in {@code unit}
     * @param what what it is, for the message
     * @param unit its unit, for the message
     * @throws IllegalArgumentException if the value is negative, infinite or NaN
     */
    public static double notNegative(double value, String what, String unit) {
        if (!(value >= 0) || Double.isInfinite(value)) {
            throw new IllegalArgumentException(what + " must not be negative, found " + value + " " + unit);
        }
        return value;
    }

    /**
     * Returns a value that must be finite.
     *
     * @param value the value, in {@code unit}
     * @param what what it is, for the message
     * @param unit its unit, for the message
     * @throws IllegalArgumentException if the value is infinite or NaN
     */
    public static double finite(double value, String what, String unit) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(what + " must be a finite number, found " + value + " " + unit);
        }
        return value;
    }
}
