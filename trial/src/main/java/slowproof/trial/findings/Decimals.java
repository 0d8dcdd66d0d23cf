package slowproof.trial.findings;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Undoes the binary rounding of sums and differences of recorded decimals. */
final class Decimals {
    private Decimals() {}

    /**
     * Returns a value rounded to recorded decimals: 600.6 - 600.0 becomes 0.6 again.
     *
     * @param value finite value
     * @param decimals 0 or more
     */
    static double scaled(double value, int decimals) {
        return BigDecimal.valueOf(value)
                .setScale(decimals, RoundingMode.HALF_EVEN)
                .doubleValue();
    }
}
