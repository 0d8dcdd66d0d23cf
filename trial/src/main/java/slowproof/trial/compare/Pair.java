package slowproof.trial.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import slowproof.metrology.statistics.MultipleTests;

/**
 * Two lines of a comparison at the speeds that both have.
 *
 * @param first first line
 * @param second second line
 * @param sharedReference whether one reference measured both; its error then cancels in every difference
 * @param differences differences, speed ascending; none when no speed is common
 */
public record Pair(Line first, Line second, boolean sharedReference, List<Difference> differences) {
    /** Speeds within 2 % are the same speed, as in groups of passes without a programmed speed. */
    private static final double SAME_SPEED = 0.02;

    /** Copies the list. */
    public Pair {
        differences = List.copyOf(differences);
    }

    /** Returns the pair of two lines, tests adjusted over all their speeds by Holm's procedure. */
    public static Pair of(Line first, Line second) {
        boolean shared = first.sharesReference(second);
        List<Difference> differences = new ArrayList<>();
        for (Level one : first.levels()) {
            match(one, second.levels()).ifPresent(two -> differences.add(Difference.of(one, two, shared)));
        }
        return new Pair(first, second, shared, adjusted(differences));
    }

    /** Of the results at the same speed the one driven most alike: same acceleration, then nearest in length. */
    private static Optional<Level> match(Level wanted, List<Level> others) {
        return others.stream()
                .filter(other -> Math.abs(Math.log(other.speedMmPerS() / wanted.speedMmPerS())) <= SAME_SPEED)
                .min(Comparator.comparing((Level other) -> !other.sameAcceleration(wanted))
                        .thenComparing(other -> Math.abs(Math.log(other.lengthMm() / wanted.lengthMm()))));
    }

    private static List<Difference> adjusted(List<Difference> differences) {
        double[] p = differences.stream()
                .map(Difference::p)
                .filter(Objects::nonNull)
                .mapToDouble(Double::doubleValue)
                .toArray();
        double[] holm = MultipleTests.holm(p);
        List<Difference> adjusted = new ArrayList<>();
        int next = 0;
        for (Difference one : differences) {
            adjusted.add(one.p() == null ? one : one.withAdjusted(holm[next++]));
        }
        return adjusted;
    }

    /** Returns how many differences are significant. */
    public int significant() {
        return (int) differences.stream().filter(Difference::significant).count();
    }

    /** Returns how many differences could be tested. */
    public int tested() {
        return (int) differences.stream().filter(one -> one.p() != null).count();
    }
}
