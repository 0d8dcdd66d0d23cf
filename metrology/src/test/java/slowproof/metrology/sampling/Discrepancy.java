package slowproof.metrology.sampling;

/** How unevenly points fill the unit cube. */
final class Discrepancy {

    private Discrepancy() {}

    /** Squared centred L2 discrepancy (Hickernell 1998). */
    static double centred(double[][] points) {
        int n = points.length;
        int d = points[0].length;
        double single = 0;
        double pairs = 0;
        for (double[] x : points) {
            double product = 1;
            for (double value : x) {
                double away = Math.abs(value - 0.5);
                product *= 1 + away / 2 - away * away / 2;
            }
            single += product;
            for (double[] y : points) {
                double joint = 1;
                for (int j = 0; j < d; j++) {
                    joint *= 1 + Math.abs(x[j] - 0.5) / 2 + Math.abs(y[j] - 0.5) / 2 - Math.abs(x[j] - y[j]) / 2;
                }
                pairs += joint;
            }
        }
        return Math.pow(13.0 / 12, d) - 2 * single / n + pairs / n / n;
    }
}
