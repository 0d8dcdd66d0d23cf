package slowproof.trial.simulator;

/**
 * The simulated sensor's counting and its slow changes.
 *
 * @param distancePerCountMm length of one counted edge q, mm, positive
 * @param readingResolutionMm step to which the display rounds a reading, mm, positive
 * @param scaleDriftPerHour change of the scale with time from the start of the trial (warm-up), ratio per hour, signed
 * @param standstillDriftMmPerMin length gained at rest, mm/min, signed
 * @param phaseErrorShare by how much the edges of channel B lie behind the middle between those of channel A, as a
 *     share of a count, above -0.5 and below 0.5
 */
public record SimSensor(
        double distancePerCountMm,
        double readingResolutionMm,
        double scaleDriftPerHour,
        double standstillDriftMmPerMin,
        double phaseErrorShare) {
    /** Checks the parts. */
    public SimSensor {
        Check.positive(distancePerCountMm, "distance per count");
        Check.positive(readingResolutionMm, "resolution of the reading");
        Check.finite(scaleDriftPerHour, "drift of the scale");
        Check.finite(standstillDriftMmPerMin, "drift at standstill");
        if (!(Math.abs(phaseErrorShare) < 0.5)) {
            throw new IllegalArgumentException("phase error must be below half a count: " + phaseErrorShare);
        }
    }

    /** Returns a sensor that shows every count and does not drift. */
    public static SimSensor of(double distancePerCountMm) {
        return new SimSensor(distancePerCountMm, distancePerCountMm, 0, 0, 0);
    }

    /** Returns a copy with this drift of the scale, ratio per hour. */
    public SimSensor withScaleDrift(double perHour) {
        return new SimSensor(
                distancePerCountMm, readingResolutionMm, perHour, standstillDriftMmPerMin, phaseErrorShare);
    }

    /** Returns a copy with this drift at rest, mm/min. */
    public SimSensor withStandstillDrift(double mmPerMin) {
        return new SimSensor(distancePerCountMm, readingResolutionMm, scaleDriftPerHour, mmPerMin, phaseErrorShare);
    }

    /** Returns a copy whose display rounds to this step, mm. */
    public SimSensor withReadingResolution(double mm) {
        return new SimSensor(distancePerCountMm, mm, scaleDriftPerHour, standstillDriftMmPerMin, phaseErrorShare);
    }

    /** Returns a copy with this phase error, as a share of a count. */
    public SimSensor withPhaseError(double share) {
        return new SimSensor(
                distancePerCountMm, readingResolutionMm, scaleDriftPerHour, standstillDriftMmPerMin, share);
    }

    /** Returns the count at a sensed position in mm: the number of the last edge at or below it. */
    long count(double sensedMm) {
        double edges = sensedMm / distancePerCountMm;
        long whole = (long) Math.floor(edges);
        if (edges < place(whole)) {
            return whole - 1;
        }
        return edges >= place(whole + 1) ? whole + 1 : whole;
    }

    /** Returns where an edge lies, mm. */
    double edgeMm(long count) {
        return distancePerCountMm * place(count);
    }

    private double place(long count) {
        return count + ((count & 1) == 0 ? 0 : phaseErrorShare);
    }
}
