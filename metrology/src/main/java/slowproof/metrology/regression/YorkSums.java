package slowproof.metrology.regression;

/** The weighted sums of York's fit at a trial slope. Written with variances, so that either error may be zero. */
final class YorkSums {
    private final double[] x;
    private final double[] y;
    private final double[] xUncertainties;
    private final double[] yUncertainties;
    private final double[] correlations;

    YorkSums(double[] x, double[] y, double[] xUncertainties, double[] yUncertainties, double[] correlations) {
        this.x = x;
        this.y = y;
        this.xUncertainties = xUncertainties;
        this.yUncertainties = yUncertainties;
        this.correlations = correlations;
    }

    At at(double slope) {
        return new At(slope);
    }

    /** The sums at one slope. */
    final class At {
        private final double slope;
        private final double[] weights = new double[x.length];
        private final double totalWeight;
        private final double meanX;
        private final double meanY;

        private At(double slope) {
            this.slope = slope;
            double sum = 0;
            double sumX = 0;
            double sumY = 0;
            for (int i = 0; i < x.length; i++) {
                double ux = slope * xUncertainties[i];
                double uy = yUncertainties[i];
                double variance = uy * uy + ux * ux - 2 * correlations[i] * ux * uy;
                if (!(variance > 0)) {
                    throw new IllegalStateException("the slope does not settle: point " + (i + 1)
                            + " has no uncertainty across a line of slope " + slope);
                }
                weights[i] = 1 / variance;
                sum += weights[i];
                sumX += weights[i] * x[i];
                sumY += weights[i] * y[i];
            }
            totalWeight = sum;
            meanX = sumX / sum;
            meanY = sumY / sum;
        }

        double nextSlope() {
            double above = 0;
            double below = 0;
            for (int i = 0; i < x.length; i++) {
                double offset = adjustedOffset(i);
                above += weights[i] * offset * (y[i] - meanY);
                below += weights[i] * offset * (x[i] - meanX);
            }
            return above / below;
        }

        StraightLine line() {
            double intercept = meanY - slope * meanX;
            double shift = 0;
            for (int i = 0; i < x.length; i++) {
                shift += weights[i] * adjustedOffset(i);
            }
            shift /= totalWeight;
            double spread = 0;
            double chiSquare = 0;
            for (int i = 0; i < x.length; i++) {
                double offset = adjustedOffset(i) - shift;
                spread += weights[i] * offset * offset;
                double residual = y[i] - meanY - slope * (x[i] - meanX);
                chiSquare += weights[i] * residual * residual;
            }
            double centre = meanX + shift;
            double slopeVariance = 1 / spread;
            return new StraightLine(
                    intercept,
                    slope,
                    1 / totalWeight + centre * centre * slopeVariance,
                    slopeVariance,
                    -centre * slopeVariance,
                    chiSquare,
                    x.length - 2,
                    true);
        }

        // abscissa of the point's foot on the line, less the weighted mean of x
        private double adjustedOffset(int i) {
            double u = x[i] - meanX;
            double v = y[i] - meanY;
            double ux = xUncertainties[i];
            double uy = yUncertainties[i];
            return weights[i] * (u * uy * uy + slope * v * ux * ux - (slope * u + v) * correlations[i] * ux * uy);
        }
    }
}
