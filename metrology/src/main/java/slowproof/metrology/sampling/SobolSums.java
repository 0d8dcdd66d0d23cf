package slowproof.metrology.sampling;

/** Means over the points of one block: the variance of the model, and for each group the parts of its indices. */
final class SobolSums {

    private final double variance;
    private final double[] first;
    private final double[] total;

    /**
     * Computes the means.
     *
     * @param a values at the points of the first set
     * @param b values at the points of the second set
     * @param mixed for each group, values at the points of the first set with the group taken from the second
     */
    SobolSums(double[] a, double[] b, double[][] mixed) {
        Moments both = Moments.of(a).plus(Moments.of(b));
        variance = both.squares() / both.count();
        first = new double[mixed.length];
        total = new double[mixed.length];
        for (int g = 0; g < mixed.length; g++) {
            for (int i = 0; i < a.length; i++) {
                double change = mixed[g][i] - a[i];
                // without the mean the product scatters less
                first[g] += (b[i] - both.mean()) * change / a.length;
                total[g] += change * change / 2 / a.length;
            }
        }
    }

    double variance() {
        return variance;
    }

    double first(int group) {
        return first[group];
    }

    double total(int group) {
        return total[group];
    }
}
