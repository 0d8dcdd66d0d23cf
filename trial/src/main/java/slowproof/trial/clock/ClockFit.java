package slowproof.trial.clock;

/**
 * How two clocks go together: t_ref = t_sensor (1 + drift) + offset. The offset includes the sensor's latency, with
 * a minus sign: a count that is shown late belongs to an earlier reference time. Standard uncertainties are widened
 * where few passes took part, so that twice their value holds about 95 % whatever their number.
 *
 * @param epochS middle of the common time by the sensor's clock, in s; there the offset is known best
 * @param offsetAtEpochS offset at the epoch, t_ref - t_sensor, in s
 * @param offsetAtEpochStandardUncertaintyS its standard uncertainty in s
 * @param drift drift used, a ratio
 * @param driftStandardUncertainty its standard uncertainty, a ratio; that of the assumption when the record says nothing
 * @param correlation correlation of offset and drift, from -1 to 1
 * @param driftMeasured false when the record is too short or too coarse for a figure (twice its standard uncertainty is above 20 ppm)
 * @param passes passes that took part
 * @param edges count transitions that took part
 */
public record ClockFit(
        double epochS,
        double offsetAtEpochS,
        double offsetAtEpochStandardUncertaintyS,
        double drift,
        double driftStandardUncertainty,
        double correlation,
        boolean driftMeasured,
        int passes,
        int edges) {
    /** Returns the reference's time in s at a time of the sensor's clock in s. */
    public double referenceTimeS(double sensorTimeS) {
        return sensorTimeS + offsetAtEpochS + drift * (sensorTimeS - epochS);
    }

    /** Returns the offset at sensor time zero in s. */
    public double offsetS() {
        return offsetAtEpochS - drift * epochS;
    }

    /**
     * Returns the standard uncertainty of the offset at sensor time zero in s: that at the epoch and that of the drift over the time
     * since, with their correlation (JCGM 100:2008, 5.2.2).
     */
    public double offsetStandardUncertaintyS() {
        double way = driftStandardUncertainty * epochS;
        double both = 2 * correlation * offsetAtEpochStandardUncertaintyS * way;
        return Math.sqrt(
                Math.max(offsetAtEpochStandardUncertaintyS * offsetAtEpochStandardUncertaintyS + way * way - both, 0));
    }

    /** Returns the drift in ppm, or NaN when the record does not carry a figure. */
    public double driftPpm() {
        return driftMeasured ? drift * 1e6 : Double.NaN;
    }

    /** Returns the standard uncertainty of the drift in ppm, or NaN when the record does not carry a figure. */
    public double driftStandardUncertaintyPpm() {
        return driftMeasured ? driftStandardUncertainty * 1e6 : Double.NaN;
    }
}
