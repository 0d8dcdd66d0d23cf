package slowproof.trial.counts;

/**
 * A counter register that wraps: after its largest value it goes on with its smallest.
 *
 * <p>Taking differences modulo 2^bits always gives a step within half the range, so a larger true step cannot
 * be seen in the register. Unwrapping is therefore allowed only while the counts that can pass between two
 * readings stay below half the range; {@link #canFollow} answers that.
 *
 * @param bits width in bits, 2 to 52 (a wider register does not wrap in a recording, and a double holds 52 bits exactly)
 * @param signed true for two's complement, -2^(bits-1) to 2^(bits-1) - 1; false for 0 to 2^bits - 1
 */
public record CounterRegister(int bits, boolean signed) {
    /** Checks the width. */
    public CounterRegister {
        if (bits < 2 || bits > 52) {
            throw new IllegalArgumentException("a wrapping register must have 2 to 52 bits, found " + bits);
        }
    }

    /** Returns the number of different values, 2^bits. */
    public double range() {
        return 0x1p0 * (1L << bits);
    }

    /** Returns the smallest value the register can show. */
    public double smallest() {
        return signed ? -range() / 2 : 0;
    }

    /** Returns the largest value the register can show. */
    public double largest() {
        return smallest() + range() - 1;
    }

    /** Returns true when the register can show {@code value}; false for NaN. */
    public boolean holds(double value) {
        return value >= smallest() && value <= largest();
    }

    /**
     * Returns the step from one reading to the next, the smallest one that explains both.
     *
     * @param from earlier reading, in counts
     * @param to later reading, in counts
     * @return step in counts, from -range/2 (included) to range/2 (excluded)
     */
    public double step(double from, double to) {
        double half = range() / 2;
        double plain = to - from;
        // nearly always; a remainder costs as much as reading the number
        if (plain >= -half && plain < half) {
            return plain;
        }
        double step = plain % range();
        if (step >= half) {
            return step - range();
        }
        return step < -half ? step + range() : step;
    }

    /**
     * Returns the step that lies nearest to an expected one, for intervals in which the register may have
     * gone round more than once.
     *
     * @param from earlier reading, in counts
     * @param to later reading, in counts
     * @param expected step expected from another source, in counts
     * @return step in counts, congruent to {@code to - from} and within half a range of {@code expected}
     */
    public double stepNear(double from, double to, double expected) {
        return expected + step(expected, to - from);
    }

    /**
     * Returns true when unwrapping by the smallest step is safe: v dt / q is below half the range.
     *
     * @param speedMmPerS top speed in mm/s, not negative
     * @param intervalS longest time between two readings in s, not negative
     * @param distancePerCountMm distance per count in mm, above zero
     */
    public boolean canFollow(double speedMmPerS, double intervalS, double distancePerCountMm) {
        return speedMmPerS * intervalS / distancePerCountMm < range() / 2;
    }
}
