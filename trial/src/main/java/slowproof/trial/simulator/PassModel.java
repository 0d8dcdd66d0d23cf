package slowproof.trial.simulator;

/**
 * What all passes of one series have in common, integrated over time once.
 *
 * @param durationS duration of one move, s
 * @param nominalMm nominal length, mm
 * @param nominalErrorMm integral of eps(v) v over the pass of nominal length, mm
 * @param plateauErrorRatio local relative error at the highest speed, ratio
 * @param meanDropoutShare expected share of time without valid signal, ratio
 * @param startScatterMm start scatter at this speed, mm
 * @param travelScatterMmPerSqrtMm travel scatter at this speed, mm per square root of a mm
 */
record PassModel(
        double durationS,
        double nominalMm,
        double nominalErrorMm,
        double plateauErrorRatio,
        double meanDropoutShare,
        double startScatterMm,
        double travelScatterMmPerSqrtMm) {
    /** Integrates one pass of a series. */
    static PassModel of(SeriesPlan series) {
        TrueMaterial material = series.material();
        Motion motion = Motion.builder().move(series.passMm(), series.drive()).build();
        double peak = series.drive().peakMmPerS(series.passMm());
        double error = motion.integrate(v -> material.curve().at(v) * v, 0, motion.durationS());
        SlowRise share = material.dropouts().share();
        double lost = motion.integrate(share::at, 0, motion.durationS());
        double factor = material.scatterFactor().at(peak);
        return new PassModel(
                motion.durationS(),
                series.passMm(),
                error,
                material.curve().at(peak),
                lost / motion.durationS(),
                factor * material.startScatterMm(),
                factor * material.travelScatterMmPerSqrtMm());
    }

    /** The error of the curve over a pass that stops a little short of or beyond its nominal length. */
    double curveErrorMm(double lengthMm) {
        return nominalErrorMm + plateauErrorRatio * (lengthMm - nominalMm);
    }

    double travelScatterMm(double lengthMm) {
        return travelScatterMmPerSqrtMm * Math.sqrt(lengthMm);
    }

    /** The share in one pass, for a standard normal draw. */
    double dropoutShare(TrueMaterial material, double draw) {
        double spread = material.dropouts().passSpread();
        // the mean of a log-normal factor is 1 when its logarithm has the mean -spread^2 / 2
        return Math.min(0.999, meanDropoutShare * Math.exp(spread * (draw - 0.5 * spread)));
    }
}
