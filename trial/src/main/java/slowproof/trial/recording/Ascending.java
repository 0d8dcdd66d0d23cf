package slowproof.trial.recording;

/**
 * Looks rows up by their time, in rows whose times ascend. As far as the row found last lay from the one asked about, as far
 * the next one is looked for at first, and from there in ever longer strides: going through a long recording in equal times
 * takes few looks for each. One thread.
 */
final class Ascending {
    private final Column time;
    private final int to;
    private int guess = 1;

    /**
     * Begins with rows that nobody has looked at yet.
     *
     * @param timeS times in s
     * @param to row behind the last one that may be looked at
     */
    Ascending(Column timeS, int to) {
        this.time = timeS;
        this.to = to;
    }

    /**
     * Returns the first row that is at least so much later than a given one.
     *
     * @param row row that is there
     * @param lengthS time in s, above zero
     * @return row behind {@code row}; the row behind the last one when there is none
     */
    int firstAfter(int row, double lengthS) {
        return first(row, time.get(row), lengthS);
    }

    /**
     * Returns the first row behind a given one whose time is not before a given one.
     *
     * @param row row that is there
     * @param timeS time in s
     * @return row behind {@code row}; the row behind the last one when there is none
     */
    int firstAt(int row, double timeS) {
        return first(row, 0, timeS);
    }

    private int first(int row, double startS, double lengthS) {
        int before = row;
        int found = to;
        int here = Math.min(row + guess, to - 1);
        int stride = 1;
        if (here > row && time.get(here) - startS >= lengthS) {
            found = here;
            int back = found - stride;
            while (back > row && time.get(back) - startS >= lengthS) {
                found = back;
                stride *= 2;
                back = found - stride;
            }
            before = Math.max(back, row);
        } else {
            before = here;
            int ahead = before + stride;
            while (ahead < to && ahead > 0 && time.get(ahead) - startS < lengthS) {
                before = ahead;
                stride *= 2;
                ahead = before + stride;
            }
            found = ahead < 0 ? to : Math.min(ahead, to);
        }
        while (found - before > 1) {
            int middle = (before + found) >>> 1;
            if (time.get(middle) - startS < lengthS) {
                before = middle;
            } else {
                found = middle;
            }
        }
        guess = Math.max(found - row, 1);
        return found;
    }
}
