package slowproof.trial.forecast;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Distributions;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.line.Line;
import slowproof.trial.line.Line.WeightedPiece;
import slowproof.trial.line.PieceMotion;
import slowproof.trial.line.PieceSpec;
import slowproof.trial.scatter.Estimate;
import slowproof.trial.scatter.VarianceComponents;

/**
 * What a trial says, put on the motion of a line: one {@link PieceModel} for each piece of the cycle. All pieces share the
 * draws of curve, reference and scatter. Immutable.
 */
final class LineModel {
    // variance of the logarithm of a standard deviation with nu degrees of freedom is 1 / (2 nu)
    private static final double INTERVAL_IN_DEVIATIONS = 2 * 1.959964;
    private static final double LEAST_FREEDOM = 1;
    // more makes no difference to any figure
    private static final double MOST_FREEDOM = 10_000;

    final LineEvidence evidence;
    final Line line;
    final LineCurves curves;
    final List<WeightedPiece> motions;
    final List<PieceModel> pieces;
    final Coverage coverage;
    /** Whether start and travel scatter were not told apart, so that the worse of the two extremes is taken. */
    final boolean worseScatter;

    final double seriesUMm;

    private LineModel(
            LineEvidence evidence,
            Line line,
            LineCurves curves,
            List<WeightedPiece> motions,
            List<PieceModel> pieces,
            Coverage coverage,
            boolean worseScatter,
            double seriesUMm) {
        this.evidence = evidence;
        this.line = line;
        this.curves = curves;
        this.motions = motions;
        this.pieces = pieces;
        this.coverage = coverage;
        this.worseScatter = worseScatter;
        this.seriesUMm = seriesUMm;
    }

    /**
     * Returns the model.
     *
     * @param evidence what the trial says
     * @param curves its curves
     * @param line the line
     * @param seed seed of the draws of scatter and set-up
     * @throws slowproof.trial.line.LineNotPossibleException if the line cannot be driven as described
     */
    static LineModel of(LineEvidence evidence, LineCurves curves, Line line, long seed) {
        List<WeightedPiece> motions = line.motions();
        UniformRandomProvider random = RandomSource.XO_SHI_RO_256_PP.create(seed ^ 0x5f0eca57L);
        int n = curves.count();
        VarianceComponents components = evidence.components();
        Estimate start = components.startScatterMm();
        Estimate travel = components.travelScatterMmPerSqrtM();
        boolean split = start != null && travel != null;
        double freedom = split && start != null && travel != null
                ? freedom(start, travel, motions)
                : Math.max(LEAST_FREEDOM, components.passDegreesOfFreedom());
        double[] factor = scatterFactors(n, freedom, random);
        double[] z = normals(n, random);
        double step = evidence.readingStepMm();
        List<PieceModel> pieces = new ArrayList<>();
        double seriesU = 0;
        for (WeightedPiece weighted : motions) {
            PieceSpec spec = weighted.piece();
            PieceMotion motion = weighted.motion();
            double length = motion.lengthMm();
            double[] curve = curves.errorsMm(motion);
            double[] reference = new double[n];
            for (int i = 0; i < n; i++) {
                reference[i] = curves.referenceShift(i) * length;
            }
            double series = components.seriesScatterMm() == null
                    ? 0
                    : components.seriesScatterMm().value()
                            * length
                            / evidence.fast().lengthMm();
            seriesU += weighted.weight() * series;
            double fixedU = Math.sqrt(square(evidence.fixedRatio() * length)
                    + square(driftUMm(line, motion))
                    + square(unitU(line, length))
                    + square(series));
            double[] fixed = Arrays.stream(z).map(value -> fixedU * value).toArray();
            double perStart;
            double perTravel;
            if (split && start != null && travel != null) {
                perStart = start.value();
                perTravel = travel.value() * Math.sqrt(motion.pathMm() / 1000);
            } else {
                double pass = components.passVarianceMm2(1, evidence.fast().lengthMm(), step * step / 12);
                double asTravel = pass * motion.pathMm() / evidence.fast().lengthMm();
                boolean startsWorse = pass * motion.starts() >= asTravel;
                perStart = startsWorse ? Math.sqrt(pass) : 0;
                perTravel = startsWorse ? 0 : Math.sqrt(asTravel);
            }
            double first = motion.firstSpeedMmPerS();
            double last = motion.lastSpeedMmPerS();
            Double latency = line.triggerLatencyS() != null ? line.triggerLatencyS() : evidence.latencyS();
            pieces.add(new PieceModel(
                    weighted.weight(),
                    length,
                    spec.lowerMm(),
                    spec.upperMm(),
                    line.cutsOnSensor(),
                    curve,
                    reference,
                    fixed,
                    deviation(reference),
                    fixedU,
                    motion.starts(),
                    perStart,
                    perTravel,
                    factor,
                    line.triggerJitterS() * Math.hypot(first, last),
                    // both cuts come late: what counts is how much faster the line is at the second
                    latency == null ? 0 : latency * (last - first),
                    step));
        }
        Coverage coverage = Coverage.of(
                evidence, curves, motions, narrowest(line.pieces()), Coverage.accelerations(line.cycle(), line.log()));
        return new LineModel(evidence, line, curves, motions, List.copyOf(pieces), coverage, !split, seriesU);
    }

    LineModel withPieces(List<PieceModel> others) {
        return new LineModel(evidence, line, curves, motions, others, coverage, worseScatter, seriesUMm);
    }

    /** Returns half the width of the narrowest tolerance, or null when no piece has one. */
    static @Nullable Double narrowest(List<PieceSpec> pieces) {
        Double least = null;
        for (PieceSpec piece : pieces) {
            Double half = piece.halfToleranceMm();
            if (half != null && (least == null || half < least)) {
                least = half;
            }
        }
        return least;
    }

    static double driftUMm(Line line, PieceMotion motion) {
        Double drift = line.standstillDriftMmPerMin();
        return drift == null ? 0 : drift * motion.standstillS() / 60 / Math.sqrt(3);
    }

    static double unitU(Line line, double lengthMm) {
        Double spread = line.unitSpread();
        return spread == null ? 0 : spread * lengthMm;
    }

    /** Degrees of freedom of the scatter of a piece, after Welch-Satterthwaite from the widths of both intervals. */
    private static double freedom(Estimate start, Estimate travel, List<WeightedPiece> motions) {
        PieceMotion motion = motions.get(0).motion();
        double a = square(start.value()) * motion.starts();
        double b = square(travel.value()) * motion.pathMm() / 1000;
        double all = square(a) / freedom(start) + square(b) / freedom(travel);
        return all > 0 ? Math.max(LEAST_FREEDOM, Math.min(MOST_FREEDOM, square(a + b) / all)) : MOST_FREEDOM;
    }

    private static double freedom(Estimate estimate) {
        if (!(estimate.low() > 0 && estimate.high() < Double.POSITIVE_INFINITY)) {
            return LEAST_FREEDOM * 4;
        }
        double deviation = Math.log(estimate.high() / estimate.low()) / INTERVAL_IN_DEVIATIONS;
        return Math.max(LEAST_FREEDOM, Math.min(MOST_FREEDOM, 1 / (2 * deviation * deviation)));
    }

    /** Factors sqrt(nu / chi-squared), one from each of n equally likely slices, in random order. */
    private static double[] scatterFactors(int n, double freedom, UniformRandomProvider random) {
        double[] factors = new double[n];
        for (int i = 0; i < n; i++) {
            factors[i] = Math.sqrt(freedom / Distributions.chiSquaredQuantile((i + 0.5) / n, freedom));
        }
        return shuffled(factors, random);
    }

    private static double[] normals(int n, UniformRandomProvider random) {
        double[] z = new double[n];
        for (int i = 0; i < n; i++) {
            z[i] = Distributions.normalQuantile((i + 0.5) / n);
        }
        return shuffled(z, random);
    }

    private static double[] shuffled(double[] values, UniformRandomProvider random) {
        for (int i = values.length - 1; i > 0; i--) {
            int j = random.nextInt(i + 1);
            double kept = values[i];
            values[i] = values[j];
            values[j] = kept;
        }
        return values;
    }

    static double deviation(double[] values) {
        double mean = 0;
        for (double value : values) {
            mean += value / values.length;
        }
        double squares = 0;
        for (double value : values) {
            squares += square(value - mean);
        }
        return values.length < 2 ? 0 : Math.sqrt(squares / (values.length - 1));
    }

    private static double square(double x) {
        return x * x;
    }
}
