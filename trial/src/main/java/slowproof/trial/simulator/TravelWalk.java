package slowproof.trial.simulator;

/**
 * The travel scatter of one pass on its way: a random walk along the travel, known at nodes about a millimetre
 * apart and drawn such that it ends where the pass ends (a Brownian bridge).
 */
final class TravelWalk {
    private static final int FEWEST_NODES = 16;
    private static final int MOST_NODES = 8192;

    private final double lengthMm;
    private final double[] nodeMm;

    private TravelWalk(double lengthMm, double[] nodeMm) {
        this.lengthMm = lengthMm;
        this.nodeMm = nodeMm;
    }

    /**
     * Draws a walk.
     *
     * @param lengthMm travel, mm, positive
     * @param scatterMmPerSqrtMm standard deviation per square root of travel, mm per square root of a mm
     * @param endMm value at the end of the travel, mm
     * @param normal random numbers
     */
    static TravelWalk draw(double lengthMm, double scatterMmPerSqrtMm, double endMm, RandomStreams.Normal normal) {
        int steps = (int) Math.min(MOST_NODES, Math.max(FEWEST_NODES, Math.ceil(lengthMm)));
        double[] nodes = new double[steps + 1];
        double step = scatterMmPerSqrtMm * Math.sqrt(lengthMm / steps);
        for (int i = 1; i <= steps; i++) {
            nodes[i] = nodes[i - 1] + step * normal.next();
        }
        double missing = endMm - nodes[steps];
        for (int i = 1; i <= steps; i++) {
            nodes[i] += missing * i / steps;
        }
        return new TravelWalk(lengthMm, nodes);
    }

    /** Returns the walk after a travel in mm, 0 to its length; held beyond. */
    double atMm(double travelledMm) {
        double at = Math.max(0, Math.min(1, travelledMm / lengthMm)) * (nodeMm.length - 1);
        int left = Math.min((int) at, nodeMm.length - 2);
        return nodeMm[left] + (at - left) * (nodeMm[left + 1] - nodeMm[left]);
    }
}
