package slowproof.metrology;

/**
 * Argument checks of the whole module, each written so that NaN fails, with the offending value in the
 * message.
 */
public final class Check {

    private Check() {}

    /**
     * Returns a finite value.
     *
     * @param value any unit
     * @param name what the value is, for the message
     * @return the value
     * @throws IllegalArgumentException if it is NaN or infinite
     */
    public static double finite(double value, String name) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(name + " must be a finite number: " + value);
        }
        return value;
    }

    /**
     * Returns a finite value that is at least zero.
     *
     * @param value any unit
     * @param name what the value is, for the message
     * @return the value
     * @throws IllegalArgumentException if it is negative, NaN or infinite
     */
    public static double notNegative(double value, String name) {
        if (!(value >= 0 && value < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(name + " must be a finite number of at least 0: " + value);
        }
        return value;
    }

    /**
     * Returns a finite value above zero.
     *
     * @param value any unit
     * @param name what the value is, for the message
     * @return the value
     * @throws IllegalArgumentException if it is zero, negative, NaN or infinite
     */
    public static double positive(double value, String name) {
        if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(name + " must be a finite number above 0: " + value);
        }
        return value;
    }

    /**
     * Returns degrees of freedom: any real number above zero, infinity included.
     *
     * @param degreesOfFreedom dimensionless
     * @return the value
     * @throws IllegalArgumentException if it is zero, negative or NaN
     */
    public static double degreesOfFreedom(double degreesOfFreedom) {
        if (!(degreesOfFreedom > 0)) {
            throw new IllegalArgumentException("degrees of freedom must be above 0: " + degreesOfFreedom);
        }
        return degreesOfFreedom;
    }

    /**
     * Returns a probability strictly between 0 and 1, such as a coverage probability.
     *
     * @param probability dimensionless
     * @param name what the value is, for the message
     * @return the value
     * @throws IllegalArgumentException if it is not strictly between 0 and 1
     */
    public static double openProbability(double probability, String name) {
        if (!(probability > 0 && probability < 1)) {
            throw new IllegalArgumentException(
                    name + " must lie between 0 and 1: " + probability + "; for 95 % give 0.95");
        }
        return probability;
    }

    /**
     * Returns an array whose values are all finite.
     *
     * @param values any unit; not modified
     * @param name what the values are, for the message
     * @return the same array
     * @throws IllegalArgumentException if a value is NaN or infinite
     */
    public static double[] allFinite(double[] values, String name) {
        for (int i = 0; i < values.length; i++) {
            if (!Double.isFinite(values[i])) {
                throw new IllegalArgumentException(name + " must be finite: number " + (i + 1) + " is " + values[i]);
            }
        }
        return values;
    }
}
