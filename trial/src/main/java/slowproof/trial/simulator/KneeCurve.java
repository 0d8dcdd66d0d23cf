package slowproof.trial.simulator;

import java.util.Objects;

/**
 * An error curve with a plain scale error at high speed and one departure from it at low speed:
 * eps(v) = scale + depth * remaining((v - knee) / width).
 *
 * @param shape how the departure fades
 * @param kneeMmPerS speed at which half of the departure remains (the upper step of a two-step curve), mm/s, positive
 * @param kneeWidthShare width of the knee as a share of its speed, ratio, positive
 * @param depthRatio departure towards standstill, signed ratio; positive = over-reads
 * @param scaleErrorRatio error at high speed, signed ratio
 */
public record KneeCurve(
        CurveShape shape, double kneeMmPerS, double kneeWidthShare, double depthRatio, double scaleErrorRatio)
        implements TrueCurve {
    /** Checks the parts. */
    public KneeCurve {
        Objects.requireNonNull(shape, "shape");
        Check.positive(kneeMmPerS, "knee");
        Check.positive(kneeWidthShare, "knee width");
        Check.finite(depthRatio, "depth");
        Check.finite(scaleErrorRatio, "scale error");
    }

    @Override
    public double at(double speedMmPerS) {
        return scaleErrorRatio + depthRatio * shape.remaining(speedMmPerS, kneeMmPerS, kneeWidthShare * kneeMmPerS);
    }
}
