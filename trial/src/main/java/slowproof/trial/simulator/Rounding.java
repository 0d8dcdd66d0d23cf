package slowproof.trial.simulator;

/** Rounding as a display does it. */
final class Rounding {
    private Rounding() {}

    /** Rounds to a multiple of a step such that the result prints without digits of representation; NaN stays NaN, -0 becomes 0. */
    static double toStep(double value, double step) {
        double perStep = 1 / step;
        double whole = Math.rint(perStep);
        // 0.05 is not representable, 20 is: dividing by whole steps gives the double nearest to the decimal number
        return Math.abs(perStep - whole) < 1e-9 * perStep
                ? Math.rint(value * whole) / whole + 0.0
                : Math.rint(value / step) * step + 0.0;
    }
}
