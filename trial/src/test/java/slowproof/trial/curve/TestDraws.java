package slowproof.trial.curve;

/** Draws of made-up curves for tests in other packages. */
public final class TestDraws {
    private TestDraws() {}

    /** Returns draws: node speeds, errors, start losses in mm, and the reference's part of each. */
    public static CurveDraws of(double[] nodesMmPerS, double[][] eps, double[] startMm, double[] shift) {
        return new CurveDraws(nodesMmPerS, eps, new double[eps.length], new int[eps.length], startMm, shift);
    }
}
