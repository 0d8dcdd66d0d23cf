package slowproof.files.log;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import slowproof.trial.input.ProblemCode;

/** Refuses a log whose decimal sign may as well separate thousands, judged from its beginning. */
final class ThousandsCheck {
    private ThousandsCheck() {}

    /**
     * Notes each column that can be read in two ways; none where the trial states the decimal sign.
     *
     * @param sample beginning of the log, whole lines
     * @param targets columns that are read
     */
    static void refuse(String sample, Layout layout, List<Target> targets, Dialect dialect, LogProblems problems) {
        if (dialect.decimal() != null) {
            return;
        }
        List<Target> measured =
                targets.stream().filter(ThousandsCheck::isMeasured).toList();
        List<ThousandsDoubt> doubts = new ArrayList<>();
        measured.forEach(target -> doubts.add(new ThousandsDoubt(layout.decimal())));
        Iterator<String> lines = sample.lines().skip(layout.dataLine() - 1).iterator();
        // most logs tell it in their first row
        for (long line = layout.dataLine();
                lines.hasNext() && !doubts.stream().allMatch(ThousandsDoubt::told);
                line++) {
            String text = lines.next();
            if (text.isEmpty() || text.charAt(0) == layout.comment()) {
                continue;
            }
            List<String> cells = LayoutFinder.cells(text, layout.separator());
            for (int k = 0; k < doubts.size() && cells.size() >= layout.cells(); k++) {
                doubts.get(k).see(cells.get(measured.get(k).index()), line);
            }
        }
        for (int k = 0; k < doubts.size(); k++) {
            ThousandsDoubt doubt = doubts.get(k);
            Target target = measured.get(k);
            if (doubt.any()) {
                problems.add(
                        ProblemCode.LOG_THOUSANDS_UNCLEAR,
                        doubt.line(),
                        target.index() + 1,
                        target.heading().isEmpty() ? target.role().key() : target.heading(),
                        Cells.shown(doubt.cell()),
                        String.valueOf(layout.decimal()));
            }
        }
    }

    private static boolean isMeasured(Target target) {
        return switch (target.role()) {
            case TIME -> !target.stamps();
            case COUNT, READING, REFERENCE, SPEED -> true;
            case CHANNEL_A, CHANNEL_B, DROPOUT, VALID, LEVEL -> false;
        };
    }
}
