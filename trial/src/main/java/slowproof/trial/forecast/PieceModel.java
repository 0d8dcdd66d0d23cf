package slowproof.trial.forecast;

import org.jspecify.annotations.Nullable;

/**
 * The error of one kind of piece, as far as a trial tells it. What all pieces of one sensor share, and what is new
 * for each piece, stand apart. Lengths in mm. Arrays have one entry per draw of the shared part; they are not
 * handed out beyond this package nor changed.
 */
final class PieceModel {
    private final double weight;
    private final double lengthMm;
    private final @Nullable Double lowerMm;
    private final @Nullable Double upperMm;
    private final boolean cutsOnSensor;
    private final double[] curveMm;
    private final double[] referenceMm;
    private final double[] fixedMm;
    private final double referenceUMm;
    private final double fixedUMm;
    private final int starts;
    private final double startMm;
    private final double travelMm;
    private final double[] scatterFactor;
    private final double triggerMm;
    private final double triggerBiasMm;
    private final double stepMm;

    /**
     * Takes the arrays over.
     *
     * @param weight share of such pieces
     * @param lengthMm length
     * @param lowerMm least permitted deviation, or null
     * @param upperMm largest permitted deviation, or null
     * @param cutsOnSensor whether an over-reading sensor makes the piece short
     * @param curveMm error by curve and start loss, without the reference's part
     * @param referenceMm the reference's part of each draw
     * @param fixedMm what else all pieces share, of each draw: set-up, drift at standstill, spread of units
     * @param referenceUMm standard uncertainty of the reference's part
     * @param fixedUMm standard uncertainty of what else all pieces share
     * @param starts starts from rest
     * @param startMm standard deviation per start
     * @param travelMm standard deviation over the travel of the piece
     * @param scatterFactor for each draw the factor on both, because they are known from few passes only
     * @param triggerMm standard deviation by the jitter of the cuts
     * @param triggerBiasMm mean deviation by the latency of the cuts
     * @param stepMm step of a reading
     */
    PieceModel(
            double weight,
            double lengthMm,
            @Nullable Double lowerMm,
            @Nullable Double upperMm,
            boolean cutsOnSensor,
            double[] curveMm,
            double[] referenceMm,
            double[] fixedMm,
            double referenceUMm,
            double fixedUMm,
            int starts,
            double startMm,
            double travelMm,
            double[] scatterFactor,
            double triggerMm,
            double triggerBiasMm,
            double stepMm) {
        this.weight = weight;
        this.lengthMm = lengthMm;
        this.lowerMm = lowerMm;
        this.upperMm = upperMm;
        this.cutsOnSensor = cutsOnSensor;
        this.curveMm = curveMm;
        this.referenceMm = referenceMm;
        this.fixedMm = fixedMm;
        this.referenceUMm = referenceUMm;
        this.fixedUMm = fixedUMm;
        this.starts = starts;
        this.startMm = startMm;
        this.travelMm = travelMm;
        this.scatterFactor = scatterFactor;
        this.triggerMm = triggerMm;
        this.triggerBiasMm = triggerBiasMm;
        this.stepMm = stepMm;
    }

    double weight() {
        return weight;
    }

    double lengthMm() {
        return lengthMm;
    }

    @Nullable
    Double lowerMm() {
        return lowerMm;
    }

    @Nullable
    Double upperMm() {
        return upperMm;
    }

    boolean cutsOnSensor() {
        return cutsOnSensor;
    }

    double[] curveMm() {
        return curveMm;
    }

    double[] referenceMm() {
        return referenceMm;
    }

    double[] fixedMm() {
        return fixedMm;
    }

    double referenceUMm() {
        return referenceUMm;
    }

    double fixedUMm() {
        return fixedUMm;
    }

    int starts() {
        return starts;
    }

    double startMm() {
        return startMm;
    }

    double travelMm() {
        return travelMm;
    }

    double[] scatterFactor() {
        return scatterFactor;
    }

    double triggerMm() {
        return triggerMm;
    }

    double triggerBiasMm() {
        return triggerBiasMm;
    }

    double stepMm() {
        return stepMm;
    }

    int draws() {
        return curveMm.length;
    }

    /** Returns the deviation that the tolerance judges, of an error of the sensor over one true piece. */
    double deviationMm(double errorMm) {
        return cutsOnSensor ? -errorMm / (1 + errorMm / lengthMm) + triggerBiasMm : errorMm;
    }

    /** Returns the mean deviation of all pieces for a draw of the shared part. */
    double sharedMm(int i) {
        return deviationMm(curveMm[i] + referenceMm[i] + fixedMm[i]);
    }

    /** Returns the variance that scatter adds from piece to piece, without factor, jitter and readings. */
    double scatterVariance() {
        return starts * startMm * startMm + travelMm * travelMm;
    }

    /** Returns the standard deviation of the normal part from piece to piece for a draw. */
    double spreadMm(int i) {
        double jitter = cutsOnSensor ? triggerMm : 0;
        return Math.sqrt(scatterVariance() * scatterFactor[i] * scatterFactor[i] + jitter * jitter);
    }

    /** Returns the standard deviation from piece to piece, readings included. */
    double pieceSpreadMm() {
        double jitter = cutsOnSensor ? triggerMm : 0;
        return Math.sqrt(scatterVariance() + jitter * jitter + stepMm * stepMm / 6);
    }

    double meanErrorMm() {
        double sum = 0;
        for (double value : curveMm) {
            sum += value;
        }
        return sum / curveMm.length;
    }

    /** Returns the share of pieces outside two ends when the mean deviation is moved, for a draw. */
    double outside(int i, double lower, double upper, double shiftMm) {
        double centre = sharedMm(i) + shiftMm;
        double spread = spreadMm(i);
        return Tails.above(upper - centre, spread, stepMm) + Tails.above(centre - lower, spread, stepMm);
    }

    /** Returns the share of next pieces above a deviation, all that is unknown included, for a draw of the curve. */
    double nextAbove(int i, double deviation) {
        double spread = spreadMm(i);
        double all = Math.sqrt(spread * spread + referenceUMm * referenceUMm + fixedUMm * fixedUMm);
        return Tails.above(deviation - deviationMm(curveMm[i]), all, stepMm);
    }

    /** Returns the same model with the mean of the curve taken out by a correction. */
    PieceModel corrected(double byMm) {
        double[] rest = curveMm.clone();
        for (int i = 0; i < rest.length; i++) {
            rest[i] -= byMm;
        }
        return with(rest, referenceMm, referenceUMm, triggerMm, stepMm, scatterFactor);
    }

    PieceModel with(
            double[] curve, double[] reference, double referenceU, double trigger, double step, double[] factor) {
        return new PieceModel(
                weight,
                lengthMm,
                lowerMm,
                upperMm,
                cutsOnSensor,
                curve,
                reference,
                fixedMm,
                referenceU,
                fixedUMm,
                starts,
                startMm,
                travelMm,
                factor,
                trigger,
                triggerBiasMm,
                step);
    }
}
