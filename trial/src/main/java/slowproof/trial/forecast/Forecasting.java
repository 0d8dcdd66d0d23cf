package slowproof.trial.forecast;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Interval;
import slowproof.metrology.uncertainty.IntervalKind;
import slowproof.metrology.uncertainty.StreamedMonteCarlo;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.forecast.Contribution.Source;
import slowproof.trial.forecast.Forecast.Change;
import slowproof.trial.forecast.Forecast.Figures;
import slowproof.trial.forecast.Forecast.Remedy;
import slowproof.trial.forecast.Forecast.Sampled;
import slowproof.trial.line.Line;
import slowproof.trial.line.Line.WeightedPiece;
import slowproof.trial.line.LineNotPossibleException;
import slowproof.trial.line.LineStep;
import slowproof.trial.spectrum.KnotDistances;
import slowproof.trial.spectrum.TravelSpectrum;

/** Forecasts pieces on a line. The same input gives the same forecast on any machine. */
public final class Forecasting {
    private static final double RANGE = 9;
    private static final double SPEED_CHANGE = 0.1;
    private static final int FEW_OUTSIDE = 400;
    private static final int TAIL_DRAWS = 200_000;

    private Forecasting() {}

    /**
     * Returns the forecast.
     *
     * @param evidence what a trial says of the material
     * @param line the line
     * @param settings how to compute
     * @throws LineNotPossibleException if the line cannot be driven as described
     */
    public static Forecast of(LineEvidence evidence, Line line, Settings settings) {
        return of(evidence, line, settings, true);
    }

    /**
     * Returns the forecast without what takes many models: the inverse questions but the tolerance, corrections and
     * changes. All other figures are those of {@link #of}.
     *
     * @param evidence what a trial says of the material
     * @param line the line
     * @param settings how to compute
     * @throws LineNotPossibleException if the line cannot be driven as described
     */
    public static Forecast answer(LineEvidence evidence, Line line, Settings settings) {
        return of(evidence, line, settings, false);
    }

    private static Forecast of(LineEvidence evidence, Line line, Settings settings, boolean all) {
        LineCurves curves = LineCurves.of(evidence);
        if (curves == null) {
            line.motions();
            return new Forecast(line, evidence, Forecast.Refusal.NO_REPEATS, null);
        }
        LineModel model = LineModel.of(evidence, curves, line, settings.seed());
        return new Forecast(line, evidence, null, figures(model, settings, all));
    }

    /**
     * Returns the Monte Carlo part of a forecast alone.
     *
     * @param evidence what a trial says of the material, with draws
     * @param line the line
     * @param settings how to compute
     * @throws IllegalArgumentException if the evidence has no draws
     */
    public static Sampled sample(LineEvidence evidence, Line line, Settings settings) {
        LineCurves curves = LineCurves.of(evidence);
        if (curves == null) {
            throw new IllegalArgumentException("nothing was repeated on " + evidence.material());
        }
        LineModel model = LineModel.of(evidence, curves, line, settings.seed());
        return sampled(model, new Judgement(model), settings);
    }

    private static Figures figures(LineModel model, Settings settings, boolean all) {
        Judgement judge = new Judgement(model);
        LineEvidence evidence = model.evidence;
        boolean toleranced = judge.hasTolerance();
        Double floor = evidence.floorMmPerS();
        Promises promises = all
                ? new Inverse(model, settings.seed()).promises()
                : Promises.ofTolerance(judge.promisedToleranceMm(), Promises.Reason.NOT_ASKED);
        return new Figures(
                judge.expectedErrorMm(),
                model.line.cutsOnSensor() ? Double.valueOf(judge.meanDeviationMm()) : null,
                judge.meanUncertaintyMm(),
                judge.meanIntervalMm(),
                judge.spreadMm(),
                judge.pieceIntervalMm(0.95),
                toleranced ? Double.valueOf(judge.nextOutside()) : null,
                toleranced ? judge.shareInterval() : null,
                model.coverage,
                weighted(model, evidence.slowestMmPerS() * (1 - 1e-9)),
                floor == null ? null : Double.valueOf(weighted(model, floor)),
                spectrum(model),
                contributions(model, judge),
                sampled(model, judge, settings),
                promises,
                all ? remedies(model, judge, promises.toleranceMm()) : List.of(),
                all ? changes(model, judge, promises.toleranceMm(), settings.seed()) : List.of(),
                decision(model, judge),
                model.worseScatter,
                shifted(model, judge));
    }

    private static double weighted(LineModel model, double speed) {
        double sum = 0;
        for (WeightedPiece piece : model.motions) {
            sum += piece.weight() * piece.motion().belowMm(speed);
        }
        return sum;
    }

    private static KnotDistances spectrum(LineModel model) {
        List<TravelSpectrum> all = new ArrayList<>();
        for (WeightedPiece piece : model.motions) {
            all.add(piece.motion().forward().times(piece.weight()));
            all.add(piece.motion().backward().times(piece.weight()));
        }
        return TravelSpectrum.sum(all).onKnots(model.curves.forward.nodesMmPerS());
    }

    private static Answer decision(LineModel model, Judgement judge) {
        if (!judge.hasTolerance() || !model.evidence.decidable()) {
            return Answer.SCREENING_ONLY;
        }
        if (judge.shareExceeded() > 1 - model.line.coverage()) {
            return Answer.DOES_NOT_CONFORM;
        }
        boolean covered = model.coverage.gaps().isEmpty();
        return covered && judge.holds() ? Answer.CONFORMS : Answer.UNDECIDED;
    }

    private static List<Contribution> contributions(LineModel model, Judgement judge) {
        double start = 0;
        double travel = 0;
        double step = 0;
        double trigger = 0;
        double reference = 0;
        double setup = 0;
        double drift = 0;
        double unit = 0;
        for (int k = 0; k < model.pieces.size(); k++) {
            PieceModel piece = model.pieces.get(k);
            double w = piece.weight();
            start += w * piece.starts() * square(piece.startMm());
            travel += w * square(piece.travelMm());
            step += w * square(piece.stepMm()) / 6;
            trigger += piece.cutsOnSensor() ? w * square(piece.triggerMm()) : 0;
            reference += w * piece.referenceUMm();
            setup += w * model.evidence.fixedRatio() * piece.lengthMm();
            drift += w * LineModel.driftUMm(model.line, model.motions.get(k).motion());
            unit += w * LineModel.unitU(model.line, piece.lengthMm());
        }
        List<Contribution> parts = new ArrayList<>();
        // in the order of the sources
        double[] variances = {
            square(judge.curveUMm()),
            square(reference),
            square(setup),
            square(model.seriesUMm),
            square(drift),
            square(unit),
            start,
            travel,
            step,
            trigger,
            judge.positionVariance()
        };
        double all = 0;
        for (double variance : variances) {
            all += variance;
        }
        Source[] sources = Source.values();
        for (int k = 0; k < sources.length; k++) {
            if (variances[k] > 0) {
                parts.add(new Contribution(sources[k], Math.sqrt(variances[k]), variances[k] / all));
            }
        }
        parts.sort(Comparator.comparingDouble(Contribution::share).reversed());
        return parts;
    }

    private static Sampled sampled(LineModel model, Judgement judge, Settings settings) {
        double spread = 0;
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (PieceModel piece : model.pieces) {
            double centre = piece.deviationMm(piece.meanErrorMm());
            spread = Math.max(
                    spread,
                    Math.sqrt(square(piece.pieceSpreadMm())
                            + square(piece.referenceUMm())
                            + square(piece.fixedUMm())
                            + square(LineModel.deviation(piece.curveMm()))));
            low = Math.min(low, centre);
            high = Math.max(high, centre);
        }
        spread = Math.max(spread, 1e-9);
        Interval bounds = bounds(model);
        StreamedMonteCarlo.Result run = StreamedMonteCarlo.run(
                new PieceKernel(model.pieces),
                new StreamedMonteCarlo.Plan(
                        settings.seed(),
                        settings.threads(),
                        0.95,
                        IntervalKind.SYMMETRIC,
                        settings.adaptive() ? 2 : 0,
                        settings.pieces(),
                        new Interval(low - RANGE * spread, high + RANGE * spread),
                        bounds == null ? new Interval(-Double.MAX_VALUE, Double.MAX_VALUE) : bounds));
        long outside = run.below() + run.above();
        Double share = null;
        Double uncertainty = null;
        boolean tail = false;
        if (judge.hasTolerance()) {
            tail = bounds == null || outside < FEW_OUTSIDE;
            if (tail) {
                double[] found = TailSampling.share(model.pieces, TAIL_DRAWS, settings.seed());
                share = found[0];
                uncertainty = found[1];
            } else {
                double p = (double) outside / run.values();
                share = p;
                uncertainty = Math.sqrt(p * (1 - p) / run.values());
            }
        }
        return new Sampled(
                run.values(),
                settings.seed(),
                run.companionMean(),
                run.standardDeviation(),
                run.interval(),
                share,
                uncertainty,
                tail,
                run.stable());
    }

    /** Returns the tolerance when all pieces have the same, else null. */
    private static @Nullable Interval bounds(LineModel model) {
        Double lower = model.pieces.get(0).lowerMm();
        Double upper = model.pieces.get(0).upperMm();
        if (lower == null || upper == null) {
            return null;
        }
        for (PieceModel piece : model.pieces) {
            if (!lower.equals(piece.lowerMm()) || !upper.equals(piece.upperMm())) {
                return null;
            }
        }
        return new Interval(lower, upper);
    }

    private static List<Remedy> remedies(LineModel model, Judgement judge, double tolerance) {
        List<Remedy> all = new ArrayList<>();
        all.add(new Remedy(Remedy.Kind.AS_FOUND, judge.expectedErrorMm(), tolerance));
        Double scale = model.evidence.scaleError();
        if (scale != null) {
            Judgement after = new Judgement(scaleCorrected(model, scale));
            all.add(new Remedy(Remedy.Kind.SCALE_CORRECTED, after.expectedErrorMm(), after.promisedToleranceMm()));
        }
        Judgement after = new Judgement(curveCorrected(model));
        all.add(new Remedy(
                Remedy.Kind.CURVE_CORRECTED,
                after.expectedErrorMm(),
                after.promisedToleranceMm() + shifted(model, judge)));
        return all;
    }

    private static LineModel scaleCorrected(LineModel model, double scale) {
        return changed(model, piece -> piece.corrected(scale * piece.lengthMm()));
    }

    private static LineModel curveCorrected(LineModel model) {
        return changed(model, piece -> piece.corrected(piece.meanErrorMm()));
    }

    private static LineModel changed(LineModel model, UnaryOperator<PieceModel> change) {
        return model.withPieces(model.pieces.stream().map(change).toList());
    }

    /** Returns by how much the expected error changes when the line runs a tenth slower or faster, the larger. */
    private static double shifted(LineModel model, Judgement judge) {
        double now = judge.expectedErrorMm();
        double most = 0;
        for (double factor : new double[] {1 - SPEED_CHANGE, 1 + SPEED_CHANGE}) {
            double sum = 0;
            for (WeightedPiece piece : model.motions) {
                double[] errors = model.curves.errorsMm(piece.motion().faster(factor));
                double mean = 0;
                for (double error : errors) {
                    mean += error / errors.length;
                }
                sum += piece.weight() * mean;
            }
            most = Math.max(most, Math.abs(sum - now));
        }
        return most;
    }

    private static List<Change> changes(LineModel model, Judgement judge, double tolerance, long seed) {
        List<Change> all = new ArrayList<>();
        List<LineStep> cycle = model.line.restAtFastestHold().cycle();
        Double creep = CycleChanges.creepMmPerS(cycle);
        if (creep != null) {
            add(
                    all,
                    Change.What.CREEP_TWICE_AS_FAST,
                    driven(model, CycleChanges.withCreep(cycle, 2 * creep), seed),
                    tolerance);
        }
        if (!cycle.isEmpty()) {
            add(
                    all,
                    Change.What.RAMPS_TWICE_AS_HARD,
                    driven(model, CycleChanges.withAccelerations(cycle, 2), seed),
                    tolerance);
            List<LineStep> fewer = CycleChanges.oneStopLess(cycle);
            if (fewer != null) {
                add(all, Change.What.ONE_STOP_LESS, driven(model, fewer, seed), tolerance);
            }
        }
        Double scale = model.evidence.scaleError();
        if (scale != null) {
            add(all, Change.What.SCALE_CORRECTED, scaleCorrected(model, scale), tolerance);
        }
        double curve = new Judgement(curveCorrected(model)).promisedToleranceMm() + shifted(model, judge);
        all.add(new Change(Change.What.CURVE_CORRECTED, curve, tolerance - curve));
        if (model.pieces.stream().anyMatch(p -> p.triggerMm() > 0)) {
            add(
                    all,
                    Change.What.TRIGGER_HALF,
                    changed(
                            model,
                            p -> p.with(
                                    p.curveMm(),
                                    p.referenceMm(),
                                    p.referenceUMm(),
                                    p.triggerMm() / 2,
                                    p.stepMm(),
                                    p.scatterFactor())),
                    tolerance);
        }
        if (model.pieces.stream().anyMatch(p -> p.referenceUMm() > 0)) {
            add(
                    all,
                    Change.What.REFERENCE_HALF,
                    changed(
                            model,
                            p -> p.with(
                                    p.curveMm(),
                                    halved(p.referenceMm(), 0, 0.5),
                                    p.referenceUMm() / 2,
                                    p.triggerMm(),
                                    p.stepMm(),
                                    p.scatterFactor())),
                    tolerance);
        }
        if (model.pieces.get(0).stepMm() > 0) {
            add(
                    all,
                    Change.What.STEP_HALF,
                    changed(
                            model,
                            p -> p.with(
                                    p.curveMm(),
                                    p.referenceMm(),
                                    p.referenceUMm(),
                                    p.triggerMm(),
                                    p.stepMm() / 2,
                                    p.scatterFactor())),
                    tolerance);
        }
        add(
                all,
                Change.What.TWICE_THE_PASSES,
                changed(
                        model,
                        p -> p.with(
                                halved(p.curveMm(), p.meanErrorMm(), Math.sqrt(0.5)),
                                p.referenceMm(),
                                p.referenceUMm(),
                                p.triggerMm(),
                                p.stepMm(),
                                halved(p.scatterFactor(), 1, Math.sqrt(0.5)))),
                tolerance);
        all.sort(Comparator.comparingDouble(Change::gainMm).reversed());
        return all;
    }

    private static double[] halved(double[] values, double about, double factor) {
        double[] closer = values.clone();
        for (int i = 0; i < closer.length; i++) {
            closer[i] = about + factor * (closer[i] - about);
        }
        return closer;
    }

    private static @Nullable LineModel driven(LineModel model, List<LineStep> cycle, long seed) {
        try {
            return LineModel.of(model.evidence, model.curves, model.line.withCycle(cycle), seed);
        } catch (LineNotPossibleException e) {
            // a change that the piece leaves no room for is not offered
            return null;
        }
    }

    private static void add(List<Change> all, Change.What kind, @Nullable LineModel model, double tolerance) {
        if (model != null) {
            double promised = new Judgement(model).promisedToleranceMm();
            all.add(new Change(kind, promised, tolerance - promised));
        }
    }

    private static double square(double x) {
        return x * x;
    }
}
