package slowproof.metrology.regression;

/**
 * Is a straight line enough? Mandel's test of linearity: by how much does a parabola scatter less than a line (J. Mandel,
 * The Statistical Analysis of Experimental Data (1964), from memory; used in ISO 8466-1, from memory).
 */
public final class LinearityTest {
    private LinearityTest() {}

    /**
     * Compares a line with a parabola.
     *
     * @param x abscissae, at least three distinct ones, at least four in all; not modified
     * @param y one value per abscissa; not modified
     * @return what the parabola explains beyond the line, with 1 degree of freedom, and what it leaves
     * @throws IllegalArgumentException if lengths differ, a number is not finite, or there are too few abscissae
     */
    public static VarianceSplit of(double[] x, double[] y) {
        if (x.length < 4) {
            throw new IllegalArgumentException("linearity is judged from at least four points: " + x.length);
        }
        LinearFit line = LeastSquares.polynomial(x, y, 1);
        LinearFit parabola = LeastSquares.polynomial(x, y, 2);
        double gained = Math.max(0, line.residualSumOfSquares() - parabola.residualSumOfSquares());
        return new VarianceSplit(gained, 1, parabola.residualSumOfSquares(), parabola.degreesOfFreedom());
    }
}
