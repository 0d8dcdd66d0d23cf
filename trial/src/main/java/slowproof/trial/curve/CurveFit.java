package slowproof.trial.curve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import slowproof.metrology.Distributions;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;
import slowproof.trial.scatter.ComponentFit;
import slowproof.trial.scatter.Estimate;
import slowproof.trial.scatter.PassError;
import slowproof.trial.scatter.VarianceComponents;

/**
 * Estimates the error curve of one material from the errors of its passes, E_pass = c starts + integral of eps dL
 * + scatter, and tests it.
 *
 * <p>A trial with fewer than 5 speeds of at least 3 passes gets no curve; its floor is a bracket. Means that do not
 * follow the family of curves get none either. The same input gives the same result on any machine and any
 * number of threads.
 */
public final class CurveFit {
    /** Number of speeds that a curve needs, each with {@link #LEAST_PASSES}. */
    public static final int LEAST_SPEEDS = 5;

    /** Number of passes at a speed from which it counts towards {@link #LEAST_SPEEDS}. */
    public static final int LEAST_PASSES = 3;

    private static final double WIDENED_LEVEL = 0.05;
    private static final double OUTSIDE_LEVEL = 0.001;
    private static final double LARGEST_RESIDUAL = 3.5;
    // one-sided 5 % point of the normal distribution
    private static final double FEW_RUNS = -1.645;

    private CurveFit() {}

    /**
     * Returns the result.
     *
     * @param passes the passes of one material that count, any order; at least one
     * @param settings what else the fit needs
     * @throws IllegalArgumentException if there is no pass
     */
    public static CurveResult of(List<PassError> passes, CurveSettings settings) {
        return of(passes, settings, DrawStore.NONE);
    }

    /**
     * Returns the result.
     *
     * @param passes the passes of one material that count, any order; at least one
     * @param settings what else the fit needs
     * @param store where draws are kept
     * @throws IllegalArgumentException if there is no pass
     */
    public static CurveResult of(List<PassError> passes, CurveSettings settings, DrawStore store) {
        if (passes.isEmpty()) {
            throw new IllegalArgumentException("at least one pass is needed");
        }
        List<ConditionRow> rows = ConditionRow.of(passes);
        double[] speeds =
                rows.stream().mapToDouble(ConditionRow::speedMmPerS).distinct().toArray();
        VarianceComponents components = ComponentFit.of(passes, settings.readingVarianceMm2());
        RowVariances variances = new RowVariances(rows, components, settings);
        List<Note> notes = new ArrayList<>(notesOnInput(rows, variances, settings));
        PointwiseFit pointwise = PointwiseFit.of(
                rows,
                speeds,
                variances.ofMean,
                Arrays.stream(variances.degreesOfFreedom).min().orElse(0));
        double referenceU = settings.referenceAt(medianTravelMm(rows));
        boolean startLoss = ComponentFit.separable(passes);
        Fitted fitted = null;
        CurveReason reason = null;
        if (thin(rows, speeds) || variances.pooled == null) {
            reason = CurveReason.THIN_TRIAL;
        } else {
            fitted = fit(rows, speeds, variances, startLoss, settings, store);
            if (fitted.outside) {
                notes.add(Note.of(NoteCode.CURVE_OUTSIDE_FAMILY, settings.material()));
                fitted = null;
                reason = CurveReason.OUTSIDE_FAMILY;
            } else if (fitted.curve.lackOfFit().widening() > 1) {
                notes.add(Note.of(
                        NoteCode.CURVE_LACK_OF_FIT,
                        settings.material(),
                        fitted.curve.lackOfFit().widening()));
            }
        }
        notes.addAll(ResidualChecks.notes(passes, settings.material(), settings.stepMm()));
        return new CurveResult(
                settings,
                rows,
                speeds,
                variances,
                pointwise,
                referenceU,
                components,
                fitted == null ? null : fitted.curve,
                fitted == null ? null : fitted.leverage,
                reason,
                fitted == null || !startLoss ? null : startLoss(fitted.curve.draws()),
                notes);
    }

    private static boolean thin(List<ConditionRow> rows, double[] speeds) {
        int full = 0;
        for (double speed : speeds) {
            int passes = 0;
            for (ConditionRow row : rows) {
                passes += row.speedMmPerS() == speed ? row.passes() : 0;
            }
            full += passes >= LEAST_PASSES ? 1 : 0;
        }
        return full < LEAST_SPEEDS;
    }

    static double medianTravelMm(List<ConditionRow> rows) {
        double[] travel =
                rows.stream().mapToDouble(ConditionRow::travelMm).sorted().toArray();
        return travel[travel.length / 2];
    }

    private static final class Fitted {
        final ErrorCurve curve;
        final double[] leverage;
        final boolean outside;

        Fitted(ErrorCurve curve, double[] leverage, boolean outside) {
            this.curve = curve;
            this.leverage = leverage;
            this.outside = outside;
        }
    }

    private static Fitted fit(
            List<ConditionRow> rows,
            double[] speeds,
            RowVariances variances,
            boolean startLoss,
            CurveSettings settings,
            DrawStore store) {
        double[] forFit = variances.forNormalFit(rows);
        FitData data = new FitData(rows, speeds, forFit);
        List<ShapeMode> modes = CurvePosterior.modes(data, startLoss);
        ShapeMode best = CurvePosterior.best(modes);
        LackOfFit test = lackOfFit(best, variances);
        if (test.widening() > 1) {
            double factor = test.widening() * test.widening();
            data = new FitData(
                    rows, speeds, Arrays.stream(forFit).map(v -> factor * v).toArray());
            modes = CurvePosterior.modes(data, startLoss);
            best = CurvePosterior.best(modes);
        }
        boolean outside = test.probability() < OUTSIDE_LEVEL && patterned(best.residuals);
        CurvePosterior posterior = CurvePosterior.sample(modes, reference(rows, startLoss, settings), settings, store);
        return new Fitted(new ErrorCurve(posterior.draws, speeds, test), best.leverage, outside);
    }

    private static double[] reference(List<ConditionRow> rows, boolean startLoss, CurveSettings settings) {
        // with two strokes the fixed part of the reference's error cannot be told from a start loss, so it goes there
        return startLoss
                ? new double[] {settings.referenceRatio(), settings.referenceMm()}
                : new double[] {settings.referenceAt(medianTravelMm(rows)), 0};
    }

    private static LackOfFit lackOfFit(ShapeMode best, RowVariances variances) {
        double freedom = Math.max(0.5, best.residuals.length - best.effectiveParameters);
        double pure = Double.POSITIVE_INFINITY;
        double sum = 0;
        for (int j = 0; j < best.residuals.length; j++) {
            double nu = variances.degreesOfFreedom[j];
            pure = Math.min(pure, nu);
            double t = Distributions.studentQuantile(0.975, nu) / Distributions.normalQuantile(0.975);
            sum += best.residuals[j] * best.residuals[j] * t * t;
        }
        double reduced = sum / freedom;
        double probability = 1 - Distributions.fCdf(reduced, freedom, pure);
        boolean widened = probability < WIDENED_LEVEL && reduced > 1;
        return new LackOfFit(reduced, freedom, probability, widened ? Math.sqrt(reduced) : 1);
    }

    /**
     * Whether residuals still show a pattern once they are scaled to their own size: one that stands far out, or too few
     * changes of sign along the speeds (runs test, NIST/SEMATECH e-Handbook 1.3.5.13). Without a pattern the
     * misfit is scatter from speed to speed, which the widened band covers.
     */
    private static boolean patterned(double[] residuals) {
        int positive = 0;
        int runs = 1;
        double largest = 0;
        for (int j = 0; j < residuals.length; j++) {
            positive += residuals[j] > 0 ? 1 : 0;
            largest = Math.max(largest, Math.abs(residuals[j]));
            runs += j > 0 && residuals[j] > 0 != residuals[j - 1] > 0 ? 1 : 0;
        }
        return largest > LARGEST_RESIDUAL
                || ResidualChecks.runsZ(positive, residuals.length - positive, runs) < FEW_RUNS;
    }

    private static Estimate startLoss(CurveDraws draws) {
        double[] values = new double[draws.count()];
        double mean = 0;
        for (int i = 0; i < values.length; i++) {
            values[i] = draws.startMm(i);
            mean += values[i] / values.length;
        }
        Arrays.sort(values);
        return new Estimate(mean, Quantiles.lower(values, 0.025), Quantiles.upper(values, 0.975));
    }

    private static List<Note> notesOnInput(List<ConditionRow> rows, RowVariances variances, CurveSettings settings) {
        List<Note> notes = new ArrayList<>();
        for (ConditionRow row : rows) {
            if (!row.reachedItsSpeed()) {
                notes.add(Note.of(
                        NoteCode.SPEED_NOT_REACHED,
                        settings.material(),
                        Quantity.mmPerS(row.block().passes().get(0).speedMmPerS()),
                        Quantity.mmPerS(row.speedMmPerS())));
            }
        }
        // where nothing was repeated, it is the difference of the directions that changes with speed
        if (variances.unequal && variances.repeated) {
            notes.add(Note.of(NoteCode.SCATTER_DIFFERS_WITH_SPEED, settings.material()));
        }
        if (variances.coarse) {
            notes.add(Note.of(NoteCode.COUNTS_TOO_COARSE, settings.material(), Quantity.mm(settings.resolutionMm())));
        }
        return notes;
    }
}
