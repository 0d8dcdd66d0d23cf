package slowproof.trial.recording;

/**
 * The least and the greatest value of a column without NaN.
 *
 * @param low least value; infinite for an empty column
 * @param high greatest value; minus infinite for an empty column
 */
record Extremes(double low, double high) {
    static Extremes of(Column column) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (Extremes part : SideBySide.over(0, column.size(), (from, to) -> of(column, from, to))) {
            low = Math.min(low, part.low);
            high = Math.max(high, part.high);
        }
        return new Extremes(low, high);
    }

    private static Extremes of(Column column, int from, int to) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = from; i < to; i++) {
            double value = column.get(i);
            low = Math.min(low, value);
            high = Math.max(high, value);
        }
        return new Extremes(low, high);
    }

    double span() {
        return high - low;
    }
}
