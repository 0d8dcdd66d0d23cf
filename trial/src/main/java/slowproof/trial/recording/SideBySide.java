package slowproof.trial.recording;

import java.util.List;
import java.util.stream.IntStream;

/**
 * Long loops over rows in parts that several threads work on. How the rows are parted hangs on their number only, and what
 * the parts came to is returned in the order of the rows, so the number of threads changes nothing.
 */
final class SideBySide {
    /** From this many rows on threads are worth their start. */
    private static final int WORTHWHILE = 500_000;

    private static final int PART = 1 << 19;

    private SideBySide() {}

    /** Returns true when threads are worth their start for work on so many rows. */
    static boolean worthwhile(int rows) {
        return rows >= WORTHWHILE;
    }

    /** Works on some rows. */
    @FunctionalInterface
    interface Work<T> {
        /** Returns what rows {@code from} (included) to {@code to} (excluded) come to. */
        T over(int from, int to);
    }

    /** Returns what rows {@code from} (included) to {@code to} (excluded) come to, part by part, in order. */
    static <T> List<T> over(int from, int to, Work<T> work) {
        if (!worthwhile(to - from)) {
            return List.of(work.over(from, to));
        }
        int parts = (to - from + PART - 1) / PART;
        return IntStream.range(0, parts)
                .parallel()
                .mapToObj(part -> work.over(from + part * PART, Math.min(from + (part + 1) * PART, to)))
                .toList();
    }
}
