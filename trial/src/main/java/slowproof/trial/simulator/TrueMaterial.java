package slowproof.trial.simulator;

import java.util.Objects;

/**
 * Everything that is true of one surface under one sensor.
 *
 * @param name name of the material
 * @param curve local relative error against speed
 * @param startLossMm mean length added to the error at each start whatever the stroke, mm; negative = lost
 * @param startScatterMm standard deviation of that length from start to start, mm, at least 0
 * @param travelScatterMmPerSqrtM travel scatter: the error's standard deviation grows with the square root of the
 *     travel, mm per square root of a metre, at least 0
 * @param textureShare share of the travel scatter's variance that belongs to the strip of material, and so comes back
 *     at each pass over the same strip, ratio, 0 to 1
 * @param seriesScatterRatio standard deviation of a scale error drawn anew for each series (mounting, strip of
 *     material), ratio, at least 0
 * @param returnExtraRatio relative error added on return passes only (nap, reversal), signed ratio
 * @param scatterFactor factor on start and travel scatter against the plateau speed of the move, at least 0
 * @param dropouts how often the signal is lost
 */
public record TrueMaterial(
        String name,
        TrueCurve curve,
        double startLossMm,
        double startScatterMm,
        double travelScatterMmPerSqrtM,
        double textureShare,
        double seriesScatterRatio,
        double returnExtraRatio,
        SlowRise scatterFactor,
        Dropouts dropouts) {
    /** Checks the parts. */
    public TrueMaterial {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(curve, "curve");
        Check.finite(startLossMm, "start loss");
        Check.notNegative(startScatterMm, "start scatter");
        Check.notNegative(travelScatterMmPerSqrtM, "travel scatter");
        if (!(textureShare >= 0 && textureShare <= 1)) {
            throw new IllegalArgumentException("share of the texture must be 0 to 1: " + textureShare);
        }
        Check.notNegative(seriesScatterRatio, "scatter between series");
        Check.finite(returnExtraRatio, "extra error of return passes");
        Check.notNegative(scatterFactor.fastValue(), "scatter factor at high speed");
        Check.notNegative(scatterFactor.slowValue(), "scatter factor at low speed");
        Objects.requireNonNull(dropouts, "dropouts");
    }

    /** Returns a material with this curve and nothing else: no start loss, no scatter, no dropouts. */
    public static TrueMaterial of(String name, TrueCurve curve) {
        return new TrueMaterial(name, curve, 0, 0, 0, 0, 0, 0, SlowRise.constant(1), Dropouts.NONE);
    }

    /** Returns a copy with another start loss and start scatter, both mm. */
    public TrueMaterial withStart(double lossMm, double scatterMm) {
        return new TrueMaterial(
                name,
                curve,
                lossMm,
                scatterMm,
                travelScatterMmPerSqrtM,
                textureShare,
                seriesScatterRatio,
                returnExtraRatio,
                scatterFactor,
                dropouts);
    }

    /** Returns a copy with another travel scatter, mm per square root of a metre. */
    public TrueMaterial withTravelScatter(double mmPerSqrtM) {
        return new TrueMaterial(
                name,
                curve,
                startLossMm,
                startScatterMm,
                mmPerSqrtM,
                textureShare,
                seriesScatterRatio,
                returnExtraRatio,
                scatterFactor,
                dropouts);
    }

    /** Returns a copy in which this share of the travel scatter's variance belongs to the strip of material. */
    public TrueMaterial withTexture(double share) {
        return new TrueMaterial(
                name,
                curve,
                startLossMm,
                startScatterMm,
                travelScatterMmPerSqrtM,
                share,
                seriesScatterRatio,
                returnExtraRatio,
                scatterFactor,
                dropouts);
    }

    /** Returns a copy with another scatter between series, ratio. */
    public TrueMaterial withSeriesScatter(double ratio) {
        return new TrueMaterial(
                name,
                curve,
                startLossMm,
                startScatterMm,
                travelScatterMmPerSqrtM,
                textureShare,
                ratio,
                returnExtraRatio,
                scatterFactor,
                dropouts);
    }

    /** Returns a copy with another extra error of return passes, ratio. */
    public TrueMaterial withReturnExtra(double ratio) {
        return new TrueMaterial(
                name,
                curve,
                startLossMm,
                startScatterMm,
                travelScatterMmPerSqrtM,
                textureShare,
                seriesScatterRatio,
                ratio,
                scatterFactor,
                dropouts);
    }

    /** Returns a copy whose scatter changes with speed by this factor. */
    public TrueMaterial withScatterFactor(SlowRise factor) {
        return new TrueMaterial(
                name,
                curve,
                startLossMm,
                startScatterMm,
                travelScatterMmPerSqrtM,
                textureShare,
                seriesScatterRatio,
                returnExtraRatio,
                factor,
                dropouts);
    }

    /** Returns a copy with other dropouts. */
    public TrueMaterial withDropouts(Dropouts other) {
        return new TrueMaterial(
                name,
                curve,
                startLossMm,
                startScatterMm,
                travelScatterMmPerSqrtM,
                textureShare,
                seriesScatterRatio,
                returnExtraRatio,
                scatterFactor,
                other);
    }

    /** Returns the travel scatter in mm per square root of a millimetre. */
    public double travelScatterMmPerSqrtMm() {
        return travelScatterMmPerSqrtM / Math.sqrt(1000);
    }

    /**
     * Returns the true floor speed of this material, see {@link TrueCurve#floorMmPerS}.
     *
     * @param limitRatio largest permitted magnitude of the relative error, ratio, positive
     * @param slowestMmPerS slow end of the search, mm/s, positive
     * @param fastestMmPerS fast end of the search, mm/s
     */
    public double floorMmPerS(double limitRatio, double slowestMmPerS, double fastestMmPerS) {
        return curve.floorMmPerS(limitRatio, slowestMmPerS, fastestMmPerS);
    }
}
