package slowproof.wording;

import org.jspecify.annotations.Nullable;
import slowproof.trial.curve.Compensation;
import slowproof.trial.curve.CurveReason;
import slowproof.trial.curve.CurveResult;
import slowproof.trial.curve.ScaleError;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Material;
import slowproof.trial.findings.Pass;
import slowproof.trial.findings.ReasonCode;
import slowproof.trial.scatter.Estimate;

/** Figures of a material that come with its curve, and why they are absent when they are. */
public final class MaterialFigures {
    /** Strokes this many times apart tell start and travel apart. */
    private static final double STROKES_APART = 3;

    private final Material material;

    /** Takes the figures of a material. */
    public MaterialFigures(Material material) {
        this.material = material;
    }

    /** Returns the scale error of the fast plateau, a ratio, or null. */
    public @Nullable Double scaleError() {
        ScaleError scale = material.scaleError();
        return scale == null ? null : scale.value();
    }

    /** Returns why there is no scale error. */
    public ReasonCode whyNoScaleError() {
        ScaleError scale = material.scaleError();
        return code(scale == null ? CurveReason.THIN_TRIAL : scale.reason());
    }

    /** Returns why there is no compensation, or why it is void. */
    public ReasonCode whyNoCompensation() {
        Compensation compensation = material.compensation();
        return code(compensation == null ? CurveReason.THIN_TRIAL : compensation.reason());
    }

    /** Returns the length gained or lost at each start in mm, positive = over-reads, or null. */
    public @Nullable Estimate startLoss() {
        CurveResult curve = material.curve();
        return curve == null ? null : curve.startLossMm();
    }

    /** Returns the standard deviation that each start adds in mm, or null. */
    public @Nullable Estimate startScatter() {
        CurveResult curve = material.curve();
        return curve == null ? null : curve.scatter().startScatterMm();
    }

    /** Returns the standard deviation of travel in mm for one metre, growing with its root, or null. */
    public @Nullable Estimate travelScatter() {
        CurveResult curve = material.curve();
        return curve == null ? null : curve.scatter().travelScatterMmPerSqrtM();
    }

    /** Returns why start loss, start scatter and travel scatter are not known apart. */
    public String whyPartsUnknown(Findings findings, Wording wording) {
        double shortest = Double.POSITIVE_INFINITY;
        double longest = 0;
        for (Pass pass : findings.passesOf(material.material())) {
            shortest = Math.min(shortest, pass.lengthMm());
            longest = Math.max(longest, pass.lengthMm());
        }
        return longest < STROKES_APART * shortest
                ? wording.reason(ReasonCode.ONE_STROKE)
                : wording.text("reason.not_evaluated");
    }

    private static ReasonCode code(@Nullable CurveReason reason) {
        return reason == null ? ReasonCode.NO_CURVE : ReasonCode.valueOf(reason.name());
    }
}
