package slowproof.trial.slips;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoublePredicate;
import org.jspecify.annotations.Nullable;
import slowproof.trial.ReadingMode;
import slowproof.trial.Series;
import slowproof.trial.Standstill;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Quantity;

/** Slips in one series. A slip that explains the whole series hides those of single rows. */
final class SeriesSlips {
    private final Series series;
    private final List<Standstill> rows;
    private final boolean zeroed;
    private final double registerMm;
    private final double[] travels;
    private final double[] indications;
    private final double[] ratios;

    /**
     * Prepares the look at one series.
     *
     * @param series series
     * @param mode how the counter was handled
     * @param registerMm length after which the counter starts again in mm, or 0 when unknown
     */
    SeriesSlips(Series series, ReadingMode mode, double registerMm) {
        this.registerMm = registerMm;
        this.series = series;
        this.rows = series.standstills();
        this.zeroed = mode == ReadingMode.ZEROED;
        int passes = rows.size() - 1;
        this.travels = new double[passes];
        this.indications = new double[passes];
        this.ratios = new double[passes];
        for (int i = 0; i < passes; i++) {
            travels[i] = rows.get(i + 1).referenceMm() - rows.get(i).referenceMm();
            indications[i] =
                    rows.get(i + 1).readingMm() - (zeroed ? 0 : rows.get(i).readingMm());
            ratios[i] = indications[i] / travels[i];
        }
    }

    List<InputProblem> questions() {
        List<InputProblem> questions = new ArrayList<>();
        InputProblem slow = slowMove();
        if (slow != null) {
            questions.add(slow);
        }
        InputProblem whole = wholeSeries();
        if (whole != null) {
            questions.add(whole);
        } else {
            questions.addAll(singleRows());
        }
        return questions;
    }

    private @Nullable InputProblem slowMove() {
        for (int i = 0; i < travels.length; i++) {
            double length = Math.abs(travels[i]);
            if (SlowMove.suspected(length, series.speedMmPerS())) {
                return ask(
                        ProblemCode.QUESTION_SLOW_MOVE,
                        "speed",
                        i,
                        series.name(),
                        Quantity.mmPerS(series.speedMmPerS()),
                        Quantity.mm(length),
                        SlowMove.hours(length, series.speedMmPerS()));
            }
        }
        return null;
    }

    private @Nullable InputProblem wholeSeries() {
        // an inch taken for a millimetre leaves 1/25.4, which is near nothing too
        if (all(Ratios::nothing) && !all(ratio -> Ratios.unit(Math.abs(ratio)) == 1 / 25.4)) {
            return ask(
                    ProblemCode.QUESTION_ERROR_TYPED,
                    "reading",
                    0,
                    series.name(),
                    Quantity.mm(rows.get(1).readingMm()),
                    Quantity.mm(Math.abs(travels[0])));
        }
        if (!zeroed && counterZeroed()) {
            return ask(ProblemCode.QUESTION_COUNTER_ZEROED, "reading", 1, series.name());
        }
        int firstReturn = 0;
        while (firstReturn < travels.length && travels[firstReturn] > 0) {
            firstReturn++;
        }
        if (firstReturn < travels.length && firstReturn > 0 && returnsWithoutSign()) {
            return ask(ProblemCode.QUESTION_RETURN_SIGN, "reading", firstReturn, series.name());
        }
        if (all(ratio -> Ratios.near(ratio, -1))) {
            return ask(ProblemCode.QUESTION_SIGN_REVERSED, "reading", 0, series.name());
        }
        double unit = Ratios.unit(Math.abs(ratios[0]));
        // one misplaced point spoils the two passes around it: a power of ten needs a third to be a unit
        boolean enough = ratios.length > (Ratios.digit(unit) == 0 ? 1 : 2);
        if (unit != 0 && enough && all(ratio -> Ratios.unit(Math.abs(ratio)) == unit)) {
            return ask(ProblemCode.QUESTION_SCALE, "reading", 0, series.name(), unit);
        }
        return null;
    }

    /** The first pass is right, and every later reading taken alone would be right for its own move. */
    private boolean counterZeroed() {
        if (ratios.length < 2 || !Ratios.near(ratios[0], 1)) {
            return false;
        }
        for (int i = 1; i < ratios.length; i++) {
            double alone = Math.abs(rows.get(i + 1).readingMm() / travels[i]);
            boolean together = Ratios.near(ratios[i], 0) || Ratios.near(ratios[i], 2);
            if (!together || !Ratios.near(alone, 1)) {
                return false;
            }
        }
        return true;
    }

    private boolean returnsWithoutSign() {
        for (int i = 0; i < ratios.length; i++) {
            if (!Ratios.near(ratios[i], travels[i] > 0 ? 1 : -1)) {
                return false;
            }
        }
        return true;
    }

    private List<InputProblem> singleRows() {
        List<InputProblem> questions = new ArrayList<>();
        for (int i = 0; i < ratios.length; i++) {
            if (Ratios.ordinary(ratios[i])) {
                continue;
            }
            if (wrapped(i)) {
                questions.add(ask(
                        ProblemCode.QUESTION_COUNTER_WRAPPED, "reading", i, series.name(), Quantity.mm(registerMm)));
                continue;
            }
            ProblemCode code = ProblemCode.QUESTION_SLOPE;
            if (Ratios.nothing(ratios[i])) {
                code = ProblemCode.QUESTION_ERROR_TYPED;
            } else if (Ratios.digit(ratios[i]) != 0) {
                code = ProblemCode.QUESTION_DIGIT;
            } else if (Ratios.near(ratios[i], -1)) {
                code = ProblemCode.QUESTION_RETURN_SIGN;
            }
            questions.add(
                    code == ProblemCode.QUESTION_RETURN_SIGN
                            ? ask(code, "reading", i, series.name())
                            : ask(
                                    code,
                                    "reading",
                                    i,
                                    series.name(),
                                    Quantity.mm(rows.get(i + 1).readingMm()),
                                    Quantity.mm(Math.abs(travels[i]))));
            // a wrong cumulative reading spoils the next difference too: asked once
            i += zeroed ? 0 : 1;
        }
        return questions;
    }

    private boolean wrapped(int pass) {
        double missing = Math.abs(travels[pass] - indications[pass]);
        return registerMm > 0 && Math.abs(missing - registerMm) < 0.2 * Math.abs(travels[pass]);
    }

    private boolean all(DoublePredicate test) {
        return Arrays.stream(ratios).allMatch(test);
    }

    private InputProblem ask(ProblemCode code, String field, int pass, Object... arguments) {
        SourcePosition at = rows.get(pass + 1).at();
        SourcePosition place = field.equals("reading") ? at : new SourcePosition(at.file(), at.line(), 0, field);
        return InputProblem.of(code, place, arguments);
    }
}
