package slowproof.trial.simulator;

/**
 * The edges a sensor counted in one series, with their times, and the truth beside them. In the truth the dropout
 * shares are 0, since edges do not tell when the signal was lost. Arrays are handed out as copies.
 */
public final class SimEdges {
    private final double[] timeS;
    private final long[] count;
    private final SimRecording.Truth truth;

    /** Takes the arrays over without copying them. */
    SimEdges(double[] timeS, long[] count, SimRecording.Truth truth) {
        this.timeS = timeS;
        this.count = count;
        this.truth = truth;
    }

    /** Returns the time of each edge by the sensor's clock, s, ascending. */
    public double[] timeS() {
        return timeS.clone();
    }

    /** Returns the count after each edge, 0 before the first. */
    public long[] count() {
        return count.clone();
    }

    /** Returns the truth. */
    public SimRecording.Truth truth() {
        return truth;
    }
}
