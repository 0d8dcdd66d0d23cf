package slowproof.trial.simulator;

/**
 * The register that holds the count, which wraps around.
 *
 * @param bits width, 2 to 63; 64 for a register that never wraps here
 * @param signed whether half of the range lies below zero
 */
public record CounterRegister(int bits, boolean signed) {
    /** A register that does not wrap. */
    public static final CounterRegister ENDLESS = new CounterRegister(64, true);

    /** Checks the parts. */
    public CounterRegister {
        if (!(bits >= 2 && bits <= 64) || (bits == 64 && !signed)) {
            throw new IllegalArgumentException("a register of " + bits + " bits cannot be simulated");
        }
    }

    /** Returns what the register shows for a count. */
    public long shown(long count) {
        int unused = 64 - bits;
        return signed ? count << unused >> unused : count << unused >>> unused;
    }
}
