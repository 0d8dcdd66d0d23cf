package slowproof.metrology.uncertainty;

/**
 * Correlation coefficient of two input quantities.
 *
 * @param first name of one
 * @param second name of the other
 * @param coefficient dimensionless, -1 to 1
 */
public record Correlation(String first, String second, double coefficient) {

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException if the coefficient is not from -1 to 1, or both names are the same
     */
    public Correlation {
        if (!(coefficient >= -1 && coefficient <= 1)) {
            throw new IllegalArgumentException("a correlation coefficient lies from -1 to 1: " + coefficient);
        }
        if (first.equals(second)) {
            throw new IllegalArgumentException("an input quantity is fully correlated with itself: " + first);
        }
    }
}
