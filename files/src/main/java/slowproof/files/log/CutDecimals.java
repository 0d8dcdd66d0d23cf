package slowproof.files.log;

import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import slowproof.trial.input.ProblemCode;

/**
 * Refuses a log in which decimal commas without quotes seem to have cut numbers in two: whole numbers in a column that is
 * read, and behind it a column left alone of groups of digits of one width, some of them beginning with a zero as no number does.
 */
final class CutDecimals {
    private static final int FEWEST_DIGITS = 2;

    /** What the column behind one shows: the width of its groups, 0 before the first, and one that begins with a zero. */
    private static final class Groups {
        private int width;
        private @Nullable String zero;
        private long line;
    }

    private CutDecimals() {}

    /**
     * Notes the columns concerned; none where the trial states the decimal sign.
     *
     * @param sample beginning of the log, whole lines
     * @param targets columns that are read
     */
    static void refuse(String sample, Layout layout, List<Target> targets, Dialect dialect, LogProblems problems) {
        if (dialect.decimal() != null || layout.separator() != ',' || layout.decimal() != '.') {
            return;
        }
        Set<Integer> read = targets.stream().map(Target::index).collect(Collectors.toSet());
        Map<Target, Groups> suspects = new HashMap<>();
        targets.stream()
                .filter(target -> hasDecimals(target.role()) && !read.contains(target.index() + 1))
                .forEach(target -> suspects.put(target, new Groups()));
        Iterator<String> lines = sample.lines().skip(layout.dataLine() - 1).iterator();
        for (long line = layout.dataLine(); lines.hasNext() && !suspects.isEmpty(); line++) {
            String text = lines.next();
            if (text.isEmpty() || text.charAt(0) == layout.comment()) {
                continue;
            }
            List<String> cells = LayoutFinder.cells(text, layout.separator());
            long here = line;
            suspects.entrySet().removeIf(entry -> !fits(cells, entry.getKey(), entry.getValue(), here));
        }
        suspects.forEach((target, groups) -> {
            String zero = groups.zero;
            if (zero != null) {
                problems.add(
                        ProblemCode.LOG_DECIMALS_CUT,
                        groups.line,
                        target.index() + 1,
                        target.heading().isEmpty() ? target.role().key() : target.heading(),
                        Cells.shown(zero));
            }
        });
    }

    private static boolean fits(List<String> cells, Target target, Groups groups, long line) {
        if (cells.size() <= target.index() + 1) {
            return false;
        }
        String whole = cells.get(target.index()).strip();
        String group = cells.get(target.index() + 1).strip();
        if (!digits(whole.startsWith("-") ? whole.substring(1) : whole) || !digits(group)) {
            return false;
        }
        if (group.length() < FEWEST_DIGITS || (groups.width != 0 && group.length() != groups.width)) {
            return false;
        }
        groups.width = group.length();
        if (groups.zero == null && group.charAt(0) == '0') {
            groups.zero = group;
            groups.line = line;
        }
        return true;
    }

    private static boolean hasDecimals(ColumnRole role) {
        return role == ColumnRole.TIME
                || role == ColumnRole.READING
                || role == ColumnRole.REFERENCE
                || role == ColumnRole.SPEED;
    }

    private static boolean digits(String text) {
        return !text.isEmpty() && text.chars().allMatch(c -> c >= '0' && c <= '9');
    }
}
