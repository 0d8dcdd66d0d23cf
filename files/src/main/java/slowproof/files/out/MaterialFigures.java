package slowproof.files.out;

import org.jspecify.annotations.Nullable;
import slowproof.trial.curve.Compensation;
import slowproof.trial.curve.CurveReason;
import slowproof.trial.curve.CurveResult;
import slowproof.trial.curve.ScaleError;
import slowproof.trial.findings.Material;
import slowproof.trial.findings.ReasonCode;
import slowproof.trial.scatter.Estimate;

/** Figures of a material that come with its curve, and why they are absent when they are. */
final class MaterialFigures {
    private final Material material;

    MaterialFigures(Material material) {
        this.material = material;
    }

    @Nullable
    Double scaleError() {
        ScaleError scale = material.scaleError();
        return scale == null ? null : scale.value();
    }

    ReasonCode whyNoScaleError() {
        ScaleError scale = material.scaleError();
        return code(scale == null ? CurveReason.THIN_TRIAL : scale.reason());
    }

    ReasonCode whyNoCompensation() {
        Compensation compensation = material.compensation();
        return code(compensation == null ? CurveReason.THIN_TRIAL : compensation.reason());
    }

    @Nullable
    Estimate startLoss() {
        CurveResult curve = material.curve();
        return curve == null ? null : curve.startLossMm();
    }

    @Nullable
    Estimate startScatter() {
        CurveResult curve = material.curve();
        return curve == null ? null : curve.scatter().startScatterMm();
    }

    @Nullable
    Estimate travelScatter() {
        CurveResult curve = material.curve();
        return curve == null ? null : curve.scatter().travelScatterMmPerSqrtM();
    }

    private static ReasonCode code(@Nullable CurveReason reason) {
        return reason == null ? ReasonCode.NO_CURVE : ReasonCode.valueOf(reason.name());
    }
}
