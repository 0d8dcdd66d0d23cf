package slowproof.trial.recording;

/**
 * A standstill of the reference in a recording, or of the sensor where there is no reference.
 *
 * @param firstRow first row at rest, counted from 0
 * @param lastRow last row at rest
 * @param startS time of the first row at rest, in s
 * @param endS time of the last row at rest, in s
 * @param referenceMm mean position over the settled part, in mm
 * @param indicationMm mean indication over the settled part, in mm; NaN when the recording has no indication
 * @param driftOverS length of the second half of the settled part in s, over which the drift is taken, since a display may lag
 * @param driftMmPerMin indication gained per minute against the reference, straight line through the second half of the settled part, in mm/min; NaN when it cannot be said
 * @param driftSpanMm largest difference of the indication within the settled part, in mm; NaN without an indication
 * @param settled false when the dwell was too short to leave time for settling, or lies at a cut
 */
public record Dwell(
        int firstRow,
        int lastRow,
        double startS,
        double endS,
        double referenceMm,
        double indicationMm,
        double driftOverS,
        double driftMmPerMin,
        double driftSpanMm,
        boolean settled) {
    /** Returns how long the reference was seen at rest, in s. */
    public double lengthS() {
        return endS - startS;
    }
}
