package slowproof.trial.dropout;

/**
 * Logistic regression on one variable with Firth's penalty (Biometrika 80 (1993) 27, from memory): the log likelihood
 * plus half the log determinant of the information, which removes the first-order bias and keeps the
 * coefficients finite when the classes separate.
 *
 * <p>P(outside | x) = 1 / (1 + exp(-(intercept + slope x))).
 *
 * @param intercept intercept
 * @param slope slope per unit of x
 */
record FirthLogistic(double intercept, double slope) {
    private static final int ITERATIONS = 200;
    private static final double CONVERGED = 1e-10;
    private static final double LARGEST_STEP = 5;

    /**
     * Fits.
     *
     * @param x values of the variable, at least two different ones
     * @param outside whether the pass lies outside the limit
     */
    static FirthLogistic fit(double[] x, boolean[] outside) {
        double mean = 0;
        for (double value : x) {
            mean += value / x.length;
        }
        double spread = 0;
        for (double value : x) {
            spread = Math.max(spread, Math.abs(value - mean));
        }
        double a = 0;
        double b = 0;
        double best = penalised(x, outside, mean, spread, a, b);
        for (int iteration = 0; iteration < ITERATIONS; iteration++) {
            double s0 = 0;
            double s1 = 0;
            double i00 = 0;
            double i01 = 0;
            double i11 = 0;
            for (double value : x) {
                double u = (value - mean) / spread;
                double w = weight(a + b * u);
                i00 += w;
                i01 += w * u;
                i11 += w * u * u;
            }
            double det = i00 * i11 - i01 * i01;
            for (int k = 0; k < x.length; k++) {
                double u = (x[k] - mean) / spread;
                double p = probability(a + b * u);
                double leverage = weight(a + b * u) * (i11 - 2 * u * i01 + u * u * i00) / det;
                double score = (outside[k] ? 1 : 0) - p + leverage * (0.5 - p);
                s0 += score;
                s1 += score * u;
            }
            double stepA = (i11 * s0 - i01 * s1) / det;
            double stepB = (i00 * s1 - i01 * s0) / det;
            double longest = Math.max(Math.abs(stepA), Math.abs(stepB));
            double width = longest > LARGEST_STEP ? LARGEST_STEP / longest : 1;
            boolean grown = false;
            for (int half = 0; half < 40 && !grown; half++) {
                double next = penalised(x, outside, mean, spread, a + width * stepA, b + width * stepB);
                if (next > best) {
                    a += width * stepA;
                    b += width * stepB;
                    best = next;
                    grown = true;
                } else {
                    width /= 2;
                }
            }
            if (!grown || longest * width < CONVERGED) {
                break;
            }
        }
        return new FirthLogistic(a - b * mean / spread, b / spread);
    }

    private static double penalised(double[] x, boolean[] outside, double mean, double spread, double a, double b) {
        double sum = 0;
        double i00 = 0;
        double i01 = 0;
        double i11 = 0;
        for (int k = 0; k < x.length; k++) {
            double u = (x[k] - mean) / spread;
            double eta = a + b * u;
            double w = weight(eta);
            i00 += w;
            i01 += w * u;
            i11 += w * u * u;
            // ln of the probability of what happened, without overflow
            double signed = outside[k] ? eta : -eta;
            sum -= signed > 0 ? Math.log1p(Math.exp(-signed)) : Math.log1p(Math.exp(signed)) - signed;
        }
        return sum + 0.5 * Math.log(i00 * i11 - i01 * i01);
    }

    private static double probability(double eta) {
        return 1 / (1 + Math.exp(-eta));
    }

    private static double weight(double eta) {
        double e = Math.exp(-Math.abs(eta));
        return e / ((1 + e) * (1 + e));
    }
}
