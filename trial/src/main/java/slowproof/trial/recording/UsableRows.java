package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Which rows of a log can be used: those with every needed value, and of rows with one time stamp the last.
 *
 * @param time times in s
 * @param indication indication, or null
 * @param reference reference, or null
 * @param incomplete rows that lack a needed value
 * @param repeated rows left out because the next one has the same time stamp
 */
record UsableRows(
        Column time, @Nullable Column indication, @Nullable Column reference, int incomplete, int repeated) {

    /** Counts the rows to leave out. */
    static UsableRows of(Column time, @Nullable Column indication, @Nullable Column reference) {
        UsableRows rows = new UsableRows(time, indication, reference, 0, 0);
        RowBlocks clock = time.blocks();
        int incomplete = 0;
        int repeated = 0;
        for (int k = 0; k < clock.count(); k++) {
            if (rows.allUsed(k)) {
                continue;
            }
            for (int i = clock.from(k); i < clock.to(k); i++) {
                if (!rows.complete(i)) {
                    incomplete++;
                } else if (rows.again(i)) {
                    repeated++;
                }
            }
        }
        return new UsableRows(time, indication, reference, incomplete, repeated);
    }

    /** True when the blocks tell that no row of one is to be left out: its times ascend, and so does the first one behind it. */
    private boolean allUsed(int block) {
        RowBlocks clock = time.blocks();
        return clock.finite(block)
                && (indication == null || indication.blocks().finite(block))
                && (reference == null || reference.blocks().finite(block))
                && clock.leastStep(block) > 0
                && (block + 1 == clock.count() || clock.leastStep(block + 1) > 0);
    }

    private boolean complete(int row) {
        return Double.isFinite(time.get(row))
                && (indication == null || Double.isFinite(indication.get(row)))
                && (reference == null || Double.isFinite(reference.get(row)));
    }

    private boolean again(int row) {
        return row + 1 < time.size() && time.get(row + 1) == time.get(row) && complete(row + 1);
    }

    private boolean used(int row) {
        return complete(row) && !again(row);
    }

    private int count() {
        return time.size() - incomplete - repeated;
    }

    /** Returns the usable rows of a column. */
    Column pick(Column column) {
        Column.Builder picked = column.sibling(count());
        for (int i = 0; i < column.size(); i++) {
            if (used(i)) {
                picked.add(column.get(i));
            }
        }
        return picked.build();
    }

    /**
     * Returns shares of dropout of the usable rows. Each speaks for the time since the usable row before, and so for the
     * rows left out there: it is their mean by time, rows of one time stamp sharing its interval. NaN where none is known.
     */
    Column pickShares(Column shares) {
        Column.Builder picked = shares.sibling(count());
        double before = Double.NaN;
        double lost = 0;
        double known = 0;
        for (int from = 0; from < shares.size(); ) {
            double here = time.get(from);
            double sum = 0;
            int told = 0;
            boolean used = false;
            int to = from;
            // a row without a time is no group of its own
            while (to < shares.size() && (to == from || time.get(to) == here)) {
                double share = shares.get(to);
                if (!Double.isNaN(share)) {
                    sum += share;
                    told++;
                }
                used |= used(to);
                to++;
            }
            double step = here - before;
            if (told > 0 && step > 0) {
                lost += sum / told * step;
                known += step;
            }
            if (used) {
                picked.add(known > 0 ? lost / known : told > 0 ? sum / told : Double.NaN);
                lost = 0;
                known = 0;
            }
            before = Double.isFinite(here) ? here : before;
            from = to;
        }
        return picked.build();
    }

    /** Returns for each usable row the longest time in s between two rows with a time since the usable row before it, 0 for the first. */
    Column silences() {
        Column.Builder silences = time.sibling(count());
        double before = Double.NaN;
        double longest = 0;
        for (int i = 0; i < time.size(); i++) {
            double here = time.get(i);
            if (here - before > longest) {
                longest = here - before;
            }
            before = Double.isFinite(here) ? here : before;
            if (used(i)) {
                silences.add(longest);
                longest = 0;
            }
        }
        return silences.build();
    }

    /** Returns the lines of the usable rows. */
    RowLines lines(RowLines lines) {
        RowLines.Builder picked = new RowLines.Builder();
        for (int i = 0; i < time.size(); i++) {
            if (used(i)) {
                picked.add(lines.line(i));
            }
        }
        return picked.build();
    }

    /** Returns transitions at the rows that are theirs, or that follow on theirs, once the others are left out. */
    List<IllegalTransition> moved(List<IllegalTransition> transitions) {
        List<IllegalTransition> moved = new ArrayList<>();
        int row = 0;
        int last = Math.max(count() - 1, 0);
        for (int i = 0; i < time.size() && moved.size() < transitions.size(); i++) {
            IllegalTransition next = transitions.get(moved.size());
            if (next.row() == i) {
                moved.add(new IllegalTransition(Math.min(row, last), next.timeS()));
            }
            row += used(i) ? 1 : 0;
        }
        return moved;
    }
}
