package slowproof.trial.counts;

/**
 * Two square waves a quarter period apart, decoded in Gray order 00, 10, 11, 01: plus one per counted edge in
 * that direction, minus one the other way. When both channels change at once two edges have passed unseen and
 * their direction is unknown; such an illegal transition adds nothing and is reported.
 *
 * <p>Four missed edges look like none at all, so illegal transitions alone do not tell that sampling is too
 * slow; the rate (edges per sample against one) does, see {@link CountingRate}.
 */
public final class Quadrature {
    /** Which edges are counted. */
    public enum Evaluation {
        /** One edge per period: A rises while B is low, or falls there in return. */
        X1(1),
        /** Both edges of channel A. */
        X2(2),
        /** All edges of both channels. */
        X4(4);

        private final int countsPerPeriod;

        Evaluation(int countsPerPeriod) {
            this.countsPerPeriod = countsPerPeriod;
        }

        /** Returns the counts in one period of a channel. */
        public int countsPerPeriod() {
            return countsPerPeriod;
        }
    }

    /** Position of a state in Gray order, indexed by 2 a + b. */
    private static final int[] PHASE = {0, 3, 1, 2};

    private static final int UNKNOWN = -1;

    private final Evaluation evaluation;
    private int phase = UNKNOWN;
    private long count;
    private long edges;
    private long illegal;

    /** Creates a decoder that starts at count zero with the first levels it is shown. */
    public Quadrature(Evaluation evaluation) {
        this.evaluation = evaluation;
    }

    /**
     * Takes the next pair of levels.
     *
     * @param a level of channel A
     * @param b level of channel B
     * @return true when the transition was legal (or none), false when both channels changed at once
     */
    public boolean accept(boolean a, boolean b) {
        int before = phase;
        phase = PHASE[(a ? 2 : 0) + (b ? 1 : 0)];
        int turn = before == UNKNOWN ? 0 : (phase - before) & 3;
        switch (turn) {
            case 1 -> count += counts(before);
            case 3 -> count -= counts(phase);
            case 2 -> illegal++;
            default -> {
                return true;
            }
        }
        edges += turn == 2 ? 2 : 1;
        return turn != 2;
    }

    /** Returns 1 when the edge that leaves {@code from} forward is counted. */
    private int counts(int from) {
        return switch (evaluation) {
            case X4 -> 1;
            case X2 -> from == 0 || from == 2 ? 1 : 0;
            case X1 -> from == 0 ? 1 : 0;
        };
    }

    /** Forgets the last levels, as after missing samples; the count goes on. */
    public void lose() {
        phase = UNKNOWN;
    }

    /** Returns the count so far, in counts of the chosen evaluation. */
    public long count() {
        return count;
    }

    /** Returns the edges of both channels seen so far, two for each illegal transition. */
    public long edges() {
        return edges;
    }

    /** Returns the number of illegal transitions so far. */
    public long illegalTransitions() {
        return illegal;
    }
}
