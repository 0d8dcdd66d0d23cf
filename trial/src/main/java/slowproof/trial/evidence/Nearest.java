package slowproof.trial.evidence;

import java.util.Comparator;
import java.util.List;
import java.util.function.Function;

/** Orders evidence by its distance from an inquiry. */
public final class Nearest {
    private Nearest() {}

    /**
     * What was found, with its distance.
     *
     * @param <T> what carries the evidence
     * @param found what was found
     * @param distance how far it lies
     */
    public record Found<T>(T found, Distance distance) {}

    /**
     * Returns the nearest, the nearest first; among equally near ones the order in which they were given stays.
     *
     * @param <T> what carries the evidence
     * @param inquiry what is asked
     * @param all what may answer it
     * @param evidence how to get at the evidence
     * @param most how many to return at most
     */
    public static <T> List<Found<T>> of(Inquiry inquiry, List<T> all, Function<T, Evidence> evidence, int most) {
        return all.stream()
                .map(one -> new Found<>(one, Distance.of(inquiry, evidence.apply(one))))
                .sorted(Comparator.comparingDouble(found -> found.distance().total()))
                .limit(most)
                .toList();
    }
}
