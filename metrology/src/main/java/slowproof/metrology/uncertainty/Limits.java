package slowproof.metrology.uncertainty;

import slowproof.metrology.Check;

/** Checks of limits shared by the bounded distributions. */
final class Limits {

    private Limits() {}

    static void check(double low, double high) {
        Check.finite(low, "lower limit");
        Check.finite(high, "upper limit");
        if (!(low <= high)) {
            throw new IllegalArgumentException("upper limit must not be below the lower: " + low + " to " + high);
        }
    }

    static double middle(double low, double high) {
        return low / 2 + high / 2;
    }

    static double halfWidth(double low, double high) {
        return high / 2 - low / 2;
    }
}
