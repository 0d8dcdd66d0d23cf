package slowproof.metrology.uncertainty;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import slowproof.metrology.Check;

/** Numerical tolerance of a standard uncertainty (JCGM 101:2008, 7.9.2, from memory). */
public final class NumericalTolerance {

    private NumericalTolerance() {}

    /**
     * Returns half a unit in the last of the digits that count: with u = c 10^l, c a whole number of {@code digits}
     * digits, the tolerance is 10^l/2.
     *
     * @param standardUncertainty in any unit, above 0 and finite
     * @param digits significant digits that count, at least 1; one or two in practice
     * @return in the same unit, above 0
     * @throws IllegalArgumentException if an argument is outside its range
     */
    public static double of(double standardUncertainty, int digits) {
        Check.positive(standardUncertainty, "standard uncertainty");
        if (digits < 1) {
            throw new IllegalArgumentException("at least one significant digit must count: " + digits);
        }
        BigDecimal rounded = new BigDecimal(standardUncertainty).round(new MathContext(digits, RoundingMode.HALF_UP));
        int exponent = rounded.precision() - rounded.scale() - digits;
        return BigDecimal.ONE.movePointRight(exponent).doubleValue() / 2;
    }
}
