package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Steps of the reference that no travel explains: an axis set to zero, an angle that starts again after a turn, a number that
 * stands for no number. The indication is the witness: it did not move as far, neither from row to row nor since the reference
 * last changed, as it does where a reference is written less often than the log.
 */
final class ReferenceSteps {
    /** A step of this many mm is no travel where nothing moves; well above what a servo does at rest. */
    private static final double CLEAR_MM = 5;

    /** A step of so many times the smallest one may be the resolution of a coarse reference. */
    private static final double STEPS = 3;

    private static final double FACTOR = 3;

    /** Share of a step that the indication must have travelled since the last change to explain it. */
    private static final double EXPLAINED = 0.3;

    private ReferenceSteps() {}

    /**
     * Returns the rows to which the reference steps, in order.
     *
     * @param time times in s
     * @param reference positions in mm
     * @param indication indication in mm
     * @param topSpeedMmPerS highest speed of the recording in mm/s; zero or NaN when too few rows tell none, and then no step either
     * @param unknown rows before which rows are missing, so that nothing can be said
     */
    static List<Integer> find(
            Column time, Column reference, Column indication, double topSpeedMmPerS, Set<Integer> unknown) {
        if (!(topSpeedMmPerS > 0)) {
            return List.of();
        }
        RowBlocks moves = reference.blocks();
        double clear = Math.max(CLEAR_MM, STEPS * reference.smallestStep());
        List<Integer> rows = new ArrayList<>();
        for (int k = 0; k < moves.count(); k++) {
            if (moves.largestMove(k) <= clear) {
                continue;
            }
            for (int i = Math.max(moves.from(k), 1); i < moves.to(k); i++) {
                double step = Math.abs(reference.get(i) - reference.get(i - 1));
                double shown = Math.abs(indication.get(i) - indication.get(i - 1));
                double possible = FACTOR * Math.max(shown, topSpeedMmPerS * (time.get(i) - time.get(i - 1))) + clear;
                if (step > possible && !unknown.contains(i) && !explained(reference, indication, i, step)) {
                    rows.add(i);
                }
            }
        }
        return rows;
    }

    private static boolean explained(Column reference, Column indication, int row, double step) {
        int changed = row - 1;
        while (changed > 0 && reference.get(changed) == reference.get(changed - 1)) {
            changed--;
        }
        return Math.abs(indication.get(row) - indication.get(changed)) >= EXPLAINED * step;
    }
}
