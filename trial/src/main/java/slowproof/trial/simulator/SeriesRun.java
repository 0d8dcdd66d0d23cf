package slowproof.trial.simulator;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;

/**
 * One series as it happens, whether it is read at its standstills or recorded: the same plan and seed give the same
 * passes in both. Errors are signed by the direction of travel.
 *
 * @param model what all passes have in common
 * @param phaseMm where within a count the sensor stands at the start, mm, 0 to the distance per count
 * @param passes the passes in order
 */
record SeriesRun(PassModel model, double phaseMm, List<Pass> passes) {
    SeriesRun {
        passes = List.copyOf(passes);
    }

    /**
     * One pass before counting.
     *
     * @param direction 1 forward, -1 return
     * @param travelMm true signed travel, mm
     * @param curveErrorMm integral of the error curve over the pass, mm
     * @param startLossMm mean start loss, mm
     * @param startScatterMm what this start adds to it, mm
     * @param travelScatterMm what the travel scatter adds up to, mm
     * @param returnExtraRatio relative error of return passes, ratio, 0 on a forward pass
     * @param ownRatio relative error of this series and time: mounting, drift, dropouts beyond the expected share, ratio
     * @param dropoutShare expected share of time without valid signal in this pass, ratio
     * @param leftRestS start of the move, s from the first standstill of the trial
     * @param atRestS end of the move, s
     */
    record Pass(
            int direction,
            double travelMm,
            double curveErrorMm,
            double startLossMm,
            double startScatterMm,
            double travelScatterMm,
            double returnExtraRatio,
            double ownRatio,
            double dropoutShare,
            double leftRestS,
            double atRestS) {
        double systematicErrorMm() {
            return curveErrorMm + startLossMm + returnExtraRatio * Math.abs(travelMm);
        }

        double errorMm() {
            return systematicErrorMm() + startScatterMm + travelScatterMm + ownRatio * Math.abs(travelMm);
        }
    }

    /**
     * Draws a series.
     *
     * @param plan the plan it belongs to
     * @param series the series
     * @param generator random numbers of the series
     * @param startS time of its first standstill, s
     */
    static SeriesRun of(BenchPlan plan, SeriesPlan series, UniformRandomProvider generator, double startS) {
        RandomStreams.Normal normal = RandomStreams.normal(generator);
        TrueMaterial material = series.material();
        PassModel model = PassModel.of(series);
        double mounting = material.seriesScatterRatio() * normal.next();
        // the carriage starts anywhere within a count
        double phaseMm = plan.sensor().distancePerCountMm() * generator.nextDouble();
        List<Pass> passes = new ArrayList<>(series.passes());
        double[] textures = textures(series, model, normal);
        double own = Math.sqrt(1 - material.textureShare());
        double timeS = startS;
        double positionMm = 0;
        double targetMm = 0;
        for (int i = 0; i < series.passes(); i++) {
            int direction = series.direction(i);
            targetMm += direction * series.passMm();
            double travelMm = targetMm + plan.stopScatterMm() * normal.next() - positionMm;
            double lengthMm = Math.abs(travelMm);
            double share = model.dropoutShare(material, normal.next());
            double start = model.startScatterMm() * normal.next();
            double texture = series.pattern() == PassPattern.ONE_WAY
                    ? Math.sqrt(material.textureShare()) * model.travelScatterMm(lengthMm) * normal.next()
                    : textures[series.track(i) * series.movesPerStroke() + series.part(i)];
            double travel = own * model.travelScatterMm(lengthMm) * normal.next() + texture;
            double drift = plan.sensor().scaleDriftPerHour() * timeS / 3600;
            double lost = material.dropouts().errorPerShare() * (share - model.meanDropoutShare());
            passes.add(new Pass(
                    direction,
                    travelMm,
                    model.curveErrorMm(lengthMm),
                    material.startLossMm(),
                    start,
                    travel,
                    direction < 0 ? material.returnExtraRatio() : 0,
                    mounting + drift + lost,
                    share,
                    timeS,
                    timeS + model.durationS()));
            positionMm += travelMm;
            timeS += model.durationS() + plan.dwellS();
        }
        return new SeriesRun(model, phaseMm, passes);
    }

    /** What the texture of each part of each strip adds to a pass over it, mm, the same in both directions. */
    private static double[] textures(SeriesPlan series, PassModel model, RandomStreams.Normal normal) {
        double[] textures = new double[series.tracks() * series.movesPerStroke()];
        double scatterMm = Math.sqrt(series.material().textureShare()) * model.travelScatterMm(series.passMm());
        for (int i = 0; i < textures.length; i++) {
            textures[i] = scatterMm * normal.next();
        }
        return textures;
    }
}
