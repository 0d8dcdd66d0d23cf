package slowproof.trial.recording;

import java.util.stream.IntStream;

/**
 * Long loops over rows in parts that several threads work on. How the rows are parted hangs on their number only, so the
 * number of threads changes nothing.
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
    interface Work {
        /** Works on rows {@code from} (included) to {@code to} (excluded). */
        void over(int from, int to);
    }

    /** Works on the first so many rows, part by part. */
    static void over(int rows, Work work) {
        if (!worthwhile(rows)) {
            work.over(0, rows);
            return;
        }
        IntStream.range(0, (rows + PART - 1) / PART)
                .parallel()
                .forEach(part -> work.over(part * PART, Math.min((part + 1) * PART, rows)));
    }
}
