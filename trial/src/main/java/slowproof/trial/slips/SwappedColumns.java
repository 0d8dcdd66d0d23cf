package slowproof.trial.slips;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.trial.Series;
import slowproof.trial.Standstill;
import slowproof.trial.Trial;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;

/**
 * Reference and reading in each other's column. With errors of a part in a thousand the ratio does not show it;
 * what does is that "readings" then sit on round target positions, ten times coarser than the display steps,
 * while the "reference" does not.
 */
final class SwappedColumns {
    private static final int FEWEST_ROWS = 4;
    private static final double ROUND = 10;
    private static final double EXACT = 1e-6;

    private SwappedColumns() {}

    static List<InputProblem> questions(Trial trial) {
        Double known = trial.sensor().resolutionMm();
        double step = ROUND * (known == null ? 0.1 : known);
        Map<String, List<Standstill>> files = new LinkedHashMap<>();
        for (Series series : trial.series()) {
            List<Standstill> rows = series.standstills();
            files.computeIfAbsent(rows.get(0).at().file(), f -> new ArrayList<>())
                    .addAll(rows.subList(1, rows.size()));
        }
        List<InputProblem> questions = new ArrayList<>();
        files.values().forEach(rows -> {
            boolean readingsRound = rows.stream().allMatch(row -> round(row.readingMm(), step));
            long odd =
                    rows.stream().filter(row -> !round(row.referenceMm(), step)).count();
            if (rows.size() >= FEWEST_ROWS && readingsRound && 4 * odd >= rows.size()) {
                questions.add(InputProblem.of(
                        ProblemCode.QUESTION_SWAPPED, rows.get(0).at()));
            }
        });
        return questions;
    }

    private static boolean round(double value, double step) {
        double steps = value / step;
        return Math.abs(steps - Math.rint(steps)) < EXACT;
    }
}
