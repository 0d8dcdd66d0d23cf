package slowproof.trial.simulator;

/**
 * The simulated sensor's counting and its slow changes.
 *
 * @param distancePerCountMm length of one counted edge q, mm, positive
 * @param readingResolutionMm step to which the display rounds a reading, mm, positive
 * @param scaleDriftPerHour change of the scale with time from the start of the trial (warm-up), ratio per hour, signed
 * @param standstillDriftMmPerMin length gained at rest, mm/min, signed
 */
public record SimSensor(
        double distancePerCountMm,
        double readingResolutionMm,
        double scaleDriftPerHour,
        double standstillDriftMmPerMin) {
    /** Checks the parts. */
    public SimSensor {
        Check.positive(distancePerCountMm, "distance per count");
        Check.positive(readingResolutionMm, "resolution of the reading");
        Check.finite(scaleDriftPerHour, "drift of the scale");
        Check.finite(standstillDriftMmPerMin, "drift at standstill");
    }

    /** Returns a sensor that shows every count and does not drift. */
    public static SimSensor of(double distancePerCountMm) {
        return new SimSensor(distancePerCountMm, distancePerCountMm, 0, 0);
    }
}
