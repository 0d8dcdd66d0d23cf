package slowproof.trial.curve;

/** Order statistics of sorted draws, rounded outwards; infinite values may stand at the ends. */
final class Quantiles {
    private Quantiles() {}

    static double lower(double[] sorted, double p) {
        return sorted[(int) Math.floor(p * (sorted.length - 1))];
    }

    static double upper(double[] sorted, double p) {
        return sorted[(int) Math.ceil(p * (sorted.length - 1))];
    }
}
