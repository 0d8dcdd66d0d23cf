package slowproof.trial.recording;

/** Order statistics of long columns. */
final class Select {
    /** Beyond this many values every k-th is taken: a median of 100,000 values is sure enough for a threshold. */
    private static final int ENOUGH = 100_000;

    private Select() {}

    /** Returns how far apart the values of a regular sample lie that stands for so many, when some are enough. */
    static int stride(int count, int enough) {
        return Math.max(1, count / enough);
    }

    /** Returns the median of the rows {@code first} to {@code last}, both included, of a regular sample of them when there are very many. */
    static double median(Column values, int first, int last) {
        int count = last - first + 1;
        int stride = stride(count, ENOUGH);
        double[] sample = new double[(count + stride - 1) / stride];
        for (int i = 0; i < sample.length; i++) {
            sample[i] = values.get(first + i * stride);
        }
        return median(sample, sample.length);
    }

    /** Returns the median of the first {@code count} values, of a regular sample of them when there are very many. */
    static double median(double[] values, int count) {
        return quantile(values, count, 0.5);
    }

    /** Returns the value below which the share {@code p} of the first {@code count} values lies; NaN for none. */
    static double quantile(double[] values, int count, double p) {
        if (count == 0) {
            return Double.NaN;
        }
        int stride = stride(count, ENOUGH);
        double[] sample = new double[(count + stride - 1) / stride];
        for (int i = 0; i < sample.length; i++) {
            sample[i] = values[i * stride];
        }
        double place = p * (sample.length - 1);
        int below = (int) place;
        double low = select(sample, below);
        if (place == below) {
            return low;
        }
        // what lies behind the place is not less than what lies at it
        double high = Double.POSITIVE_INFINITY;
        for (int i = below + 1; i < sample.length; i++) {
            high = Math.min(high, sample[i]);
        }
        return low + (place - below) * (high - low);
    }

    /** Returns the value that would be at a place after sorting; what is before it then is not greater, what is behind not less. */
    private static double select(double[] values, int place) {
        int from = 0;
        int to = values.length - 1;
        while (from < to) {
            double pivot = middle(values[from], values[(from + to) >>> 1], values[to]);
            int low = from;
            int high = to;
            while (low <= high) {
                while (values[low] < pivot) {
                    low++;
                }
                while (values[high] > pivot) {
                    high--;
                }
                if (low <= high) {
                    double value = values[low];
                    values[low++] = values[high];
                    values[high--] = value;
                }
            }
            if (place <= high) {
                to = high;
            } else if (place >= low) {
                from = low;
            } else {
                break;
            }
        }
        return values[place];
    }

    private static double middle(double a, double b, double c) {
        return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    }
}
