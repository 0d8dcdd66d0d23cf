package slowproof.trial.curve;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.note.Note;
import slowproof.trial.scatter.Estimate;
import slowproof.trial.scatter.VarianceComponents;

/** What the passes of one material say of its error curve. Immutable; asked for floors at any limit. */
public final class CurveResult {
    final CurveSettings settings;
    final List<ConditionRow> rows;
    final double[] speeds;
    final RowVariances variances;
    final PointwiseFit pointwise;
    final double referenceU;
    private final VarianceComponents components;
    private final @Nullable ErrorCurve curve;
    final double @Nullable [] leverage;
    private final @Nullable CurveReason reason;
    private final @Nullable Estimate startLossMm;
    private final List<Note> notes;

    CurveResult(
            CurveSettings settings,
            List<ConditionRow> rows,
            double[] speeds,
            RowVariances variances,
            PointwiseFit pointwise,
            double referenceU,
            VarianceComponents components,
            @Nullable ErrorCurve curve,
            double @Nullable [] leverage,
            @Nullable CurveReason reason,
            @Nullable Estimate startLossMm,
            List<Note> notes) {
        this.settings = settings;
        this.rows = List.copyOf(rows);
        this.speeds = speeds;
        this.variances = variances;
        this.pointwise = pointwise;
        this.referenceU = referenceU;
        this.components = components;
        this.curve = curve;
        this.leverage = leverage;
        this.reason = reason;
        this.startLossMm = startLossMm;
        this.notes = List.copyOf(notes);
    }

    /** Returns the curve, or null; then {@link #reason} says why. */
    public @Nullable ErrorCurve curve() {
        return curve;
    }

    /** Returns why there is no curve, or null when there is one. */
    public @Nullable CurveReason reason() {
        return reason;
    }

    /**
     * Returns the local errors at the tested speeds, one by one: the ramps' share is taken out with straight lines in
     * ln v between the tested speeds, nothing else is assumed of the shape. Interval ends are NaN when
     * nothing was repeated.
     */
    public List<CurvePoint> tested() {
        return pointwise.points(referenceU);
    }

    /**
     * Returns draws for a forecast: those of the curve; without a curve draws of the errors at the tested speeds, on
     * these as nodes; null when nothing was repeated.
     */
    public @Nullable CurveDraws draws() {
        if (curve != null) {
            return curve.draws();
        }
        return variances.pooled == null ? null : pointwise.draws(referenceU, settings.seed(), settings.draws());
    }

    /**
     * Returns the floor speed for a limit: from the curve, or a bracket without one.
     *
     * @param limit largest permitted size of the relative error (ratio), greater than 0; with an absolute part of the
     *     limit the caller states for which length
     */
    public FloorEstimate floor(double limit) {
        return curve == null
                ? FloorBounds.of(rows, speeds, variances, settings, limit)
                : FloorEstimate.of(curve, limit);
    }

    /** Returns what makes the passes scatter. */
    public VarianceComponents scatter() {
        return components;
    }

    /** Returns the length gained or lost at each start, positive = over-reads, or null when strokes cannot tell it. */
    public @Nullable Estimate startLossMm() {
        return startLossMm;
    }

    /** Returns the scale error of the fast plateau and the curve without it. */
    public ScaleError scaleError() {
        return ScaleError.of(this);
    }

    /**
     * Returns what compensation by the curve would leave, speed by speed.
     *
     * @param speedTolerance half-width of the speed's variation as a ratio, 0 to 0.5
     * @param dropoutLimitPct dropout share above which a pass is not trusted, in percent
     */
    public List<Compensation> compensation(double speedTolerance, double dropoutLimitPct) {
        return Compensation.of(this, speedTolerance, dropoutLimitPct);
    }

    /** Returns remarks on input, fit and residuals. */
    public List<Note> notes() {
        return notes;
    }
}
