package slowproof.trial.clock;

/**
 * Signed way travelled in each class of speed, from the start of the reference's record: hat functions in the
 * logarithm of speed, so that the classes of a row add up to its position. Slower and faster ways than the outer
 * knots belong to these.
 */
final class SpeedWays {
    private final int knots;
    private final double[] way;

    SpeedWays(ReferenceTrack track, int knots, double slowestMmPerS, double fastestMmPerS) {
        this.knots = knots;
        this.way = new double[track.size() * knots];
        double low = Math.log(slowestMmPerS);
        double spacing = (Math.log(fastestMmPerS) - low) / (knots - 1);
        for (int i = 1; i < track.size(); i++) {
            System.arraycopy(way, (i - 1) * knots, way, i * knots, knots);
            double step = track.positionMm(i) - track.positionMm(i - 1);
            if (track.broken(i) || step == 0) {
                continue;
            }
            double speed = Math.abs(step) / (track.timeS(i) - track.timeS(i - 1));
            double place = Math.min(Math.max((Math.log(speed) - low) / spacing, 0), knots - 1);
            int below = Math.min((int) place, knots - 2);
            double share = place - below;
            way[i * knots + below] += (1 - share) * step;
            way[i * knots + below + 1] += share * step;
        }
    }

    /** Writes the ways at a place between two samples. */
    void at(int cell, double share, double[] into) {
        int here = cell * knots;
        for (int k = 0; k < knots; k++) {
            into[k] = way[here + k] + share * (way[here + knots + k] - way[here + k]);
        }
    }
}
