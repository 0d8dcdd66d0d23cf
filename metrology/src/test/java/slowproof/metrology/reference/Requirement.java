package slowproof.metrology.reference;

/**
 * What a case is held to.
 *
 * @param digits correct significant digits asked of every figure, or 0 to ask for the tolerance stated with each
 *     figure instead
 */
public record Requirement(int digits) {
    /** Every figure within the tolerance stated in the case file. */
    public static final Requirement TOLERANCE = new Requirement(0);

    /** So many correct significant digits in every figure. */
    public static Requirement digits(int digits) {
        return new Requirement(digits);
    }

    boolean metBy(double computed, ExpectedValue target) {
        return digits > 0
                ? Agreement.digits(computed, target.value()) >= digits
                : Math.abs(computed - target.value()) <= target.tolerance();
    }

    String describe() {
        return digits > 0 ? digits + " digits" : "tolerance";
    }
}
