package slowproof.metrology.uncertainty;

import slowproof.metrology.Interval;

/** Coverage intervals from sorted values (JCGM 101:2008, 7.7, from memory). */
final class SortedDraws {

    private SortedDraws() {}

    /**
     * Number of steps from the lower end to the upper: p M, rounded when it is not whole, and at least one value left
     * on the whole.
     */
    private static int steps(int size, double probability) {
        return Math.min(size - 1, (int) Math.floor(probability * size + 0.5));
    }

    static Interval symmetric(double[] sorted, double probability) {
        int steps = steps(sorted.length, probability);
        // as many values below the interval as above it, the odd one above
        int low = Math.max(0, (sorted.length - steps + 1) / 2 - 1);
        return new Interval(sorted[low], sorted[low + steps]);
    }

    static Interval shortest(double[] sorted, double probability) {
        int steps = steps(sorted.length, probability);
        int best = 0;
        for (int low = 1; low + steps < sorted.length; low++) {
            if (sorted[low + steps] - sorted[low] < sorted[best + steps] - sorted[best]) {
                best = low;
            }
        }
        return new Interval(sorted[best], sorted[best + steps]);
    }

    static Interval of(IntervalKind kind, double[] sorted, double probability) {
        return switch (kind) {
            case SYMMETRIC -> symmetric(sorted, probability);
            case SHORTEST -> shortest(sorted, probability);
        };
    }
}
