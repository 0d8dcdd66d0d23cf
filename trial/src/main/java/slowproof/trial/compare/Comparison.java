package slowproof.trial.compare;

import java.util.List;
import java.util.stream.Stream;

/**
 * Lines side by side, each against the first.
 *
 * @param lines lines, at least two
 * @param pairs the first with each of the others, in their order
 */
public record Comparison(List<Line> lines, List<Pair> pairs) {
    /** Copies the lists. */
    public Comparison {
        lines = List.copyOf(lines);
        pairs = List.copyOf(pairs);
    }

    /**
     * Returns the comparison of lines.
     *
     * @param lines lines, the one to compare with first
     * @throws IllegalArgumentException if there are fewer than two
     */
    public static Comparison of(List<Line> lines) {
        if (lines.size() < 2) {
            throw new IllegalArgumentException("a comparison needs two lines, found " + lines.size());
        }
        Line first = lines.get(0);
        Stream<Pair> pairs = lines.stream().skip(1).map(line -> Pair.of(first, line));
        return new Comparison(lines, pairs.toList());
    }
}
