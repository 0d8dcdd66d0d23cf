package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import slowproof.trial.counts.CounterRegister;
import slowproof.trial.counts.CountingRate;
import slowproof.trial.counts.Quadrature;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;

/**
 * Makes a {@link Recording} of logged columns: decodes channels, leaves out rows without a value, puts repeated
 * time stamps together, unwraps the counter and marks breaks. Everything that was mended is noted; what cannot
 * be trusted is refused.
 */
public final class RecordingAssembler {
    /** Faster than any line known to us; used only to check the register when no speed is known. */
    private static final double SPEED_WHEN_UNKNOWN_MM_PER_S = 50_000;

    /** A clock that goes back in more than one row of a hundred is no clock. */
    private static final int ROWS_PER_CLOCK_JUMP = 100;

    /** Share of rows with an edge from which on a log of channels is a list of edges. */
    private static final double EDGE_LIST = 0.99;

    private static final int INTERVALS = 100_000;

    private final LoggedColumns log;
    private final SensorScale scale;
    private final BreakRule rule;
    private final List<Note> notes = new ArrayList<>();
    private final List<IllegalTransition> illegal = new ArrayList<>();
    private final List<Break> breaks = new ArrayList<>();

    /** Columns after leaving rows out, and the lines of the rows that are left. */
    private Column time;

    private @Nullable Column indication;
    private @Nullable Column reference;
    private @Nullable Column dropout;
    private RowLines lines;

    /** Longest time without any row before each row, in s; null when no row was left out for lack of a value. */
    private @Nullable Column silences;

    private int size;

    /** True for a list of edges: no row is missing between two of them, however far apart they are. */
    private boolean edgesOnly;

    private double longestIntervalS;
    private int longestIntervalRow;

    private RecordingAssembler(LoggedColumns log, SensorScale scale, BreakRule rule) {
        this.log = log;
        this.scale = scale;
        this.rule = rule;
        this.time = log.timeS();
        this.lines = log.lines();
        this.size = log.timeS().size();
    }

    /**
     * Returns the recording with the usual rule for breaks.
     *
     * @param log columns as read
     * @param scale how counts become mm
     * @throws BadInputException if the columns cannot be evaluated
     */
    public static Recording assemble(LoggedColumns log, SensorScale scale) {
        return assemble(log, scale, BreakRule.DEFAULT);
    }

    /**
     * Returns the recording.
     *
     * @param log columns as read
     * @param scale how counts become mm
     * @param rule when rows count as missing
     * @throws BadInputException if the columns cannot be evaluated
     */
    public static Recording assemble(LoggedColumns log, SensorScale scale, BreakRule rule) {
        return new RecordingAssembler(log, scale, rule).assemble();
    }

    private Recording assemble() {
        if (log.count() == null && log.channelA() == null) {
            indication = log.readingMm();
        } else {
            if (scale.distancePerCountMm() == null) {
                throw refuse(ProblemCode.LOG_DISTANCE_PER_COUNT_MISSING, 0, 0);
            }
            indication = log.count() == null ? decode() : log.count();
        }
        reference = log.referenceMm();
        dropout = log.dropout();
        keepUsableRows();
        if (size < 2) {
            throw refuse(ProblemCode.LOG_TOO_FEW_ROWS, 0, size);
        }
        double interval = medianInterval();
        findBreaks(interval);
        double topSpeed = topSpeedMmPerS(interval);
        double countMm = Double.NaN;
        if (log.readingMm() == null && indication != null && scale.distancePerCountMm() != null) {
            countMm = scale.distancePerCountMm();
            indication = scaled(indication, countMm, topSpeed, interval);
        }
        if (indication != null && reference != null) {
            findCounterSteps(topSpeed, countMm);
            findReferenceSteps(topSpeed);
        }
        remarkBreaks();
        return new Recording(
                log.source(), time, indication, reference, dropout, countMm, interval, breaks, illegal, notes);
    }

    /** Counts the edges of both channels; the rows of illegal transitions are those of the log. */
    private Column decode() {
        Column a = requireColumn(log.channelA());
        Column b = requireColumn(log.channelB());
        Column.Builder counts = time.sibling(size);
        Quadrature decoder = new Quadrature(scale.evaluation());
        int edges = 0;
        for (int i = 0; i < size; i++) {
            if (i > 0 && (a.get(i) != a.get(i - 1) || b.get(i) != b.get(i - 1))) {
                edges++;
            }
            if (Double.isNaN(a.get(i)) || Double.isNaN(b.get(i))) {
                counts.add(Double.NaN);
                continue;
            }
            if (!decoder.accept(a.get(i) > 0.5, b.get(i) > 0.5)) {
                illegal.add(new IllegalTransition(i, time.get(i)));
            }
            counts.add((double) decoder.count());
        }
        edgesOnly = edges >= EDGE_LIST * (size - 1);
        if (!illegal.isEmpty()) {
            notes.add(Note.of(
                    NoteCode.LOG_ILLEGAL_TRANSITIONS,
                    log.source(),
                    illegal.size(),
                    Quantity.moment(illegal.get(0).timeS())));
        }
        return counts.build();
    }

    private static Column requireColumn(@Nullable Column column) {
        if (column == null) {
            throw new IllegalStateException("column is absent");
        }
        return column;
    }

    /** Leaves out rows without a needed value, and all but the last row of each repeated time stamp. */
    private void keepUsableRows() {
        UsableRows rows = UsableRows.of(time, indication, reference);
        if (rows.incomplete() > 0) {
            notes.add(Note.of(NoteCode.LOG_ROWS_LEFT_OUT, log.source(), rows.incomplete(), size));
        }
        if (rows.repeated() > 0) {
            notes.add(Note.of(NoteCode.LOG_TIMES_REPEATED, log.source(), rows.repeated(), size));
        }
        if (rows.incomplete() + rows.repeated() == 0) {
            return;
        }
        silences = rows.incomplete() > 0 ? rows.silences() : null;
        lines = rows.lines(lines);
        List<IllegalTransition> moved = rows.moved(illegal);
        illegal.clear();
        illegal.addAll(moved);
        time = rows.pick(time);
        indication = indication == null ? null : rows.pick(indication);
        reference = reference == null ? null : rows.pick(reference);
        dropout = dropout == null ? null : rows.pickShares(dropout);
        size = time.size();
    }

    private double medianInterval() {
        // a regular sample of the intervals is enough, and spares a column
        int stride = Math.max(1, size / INTERVALS);
        double[] intervals = new double[size / stride + 1];
        int count = 0;
        for (int i = 1; i < size; i += stride) {
            double interval = time.get(i) - time.get(i - 1);
            if (interval > 0) {
                intervals[count++] = interval;
            }
        }
        if (count == 0) {
            throw refuse(ProblemCode.LOG_TIME_UNSORTED, 1, size - 1);
        }
        return Select.median(intervals, count);
    }

    private void findBreaks(double interval) {
        RowBlocks clock = time.blocks();
        int back = 0;
        int firstBack = 0;
        for (int k = 0; k < clock.count(); k++) {
            boolean ordinary = clock.leastStep(k) > 0 && clock.greatestStep(k) <= rule.gapFactor() * interval;
            if (ordinary && clock.greatestStep(k) <= longestIntervalS) {
                continue;
            }
            for (int i = Math.max(clock.from(k), 1); i < clock.to(k); i++) {
                double step = time.get(i) - time.get(i - 1);
                if (step <= 0) {
                    firstBack = back++ == 0 ? i : firstBack;
                    breaks.add(new Break(Break.Cause.CLOCK_BACK, i, line(i), time.get(i - 1), time.get(i), true));
                } else if (step > (edgesOnly ? rule.splitS() : rule.gapFactor() * interval)) {
                    boolean splits = step >= rule.splitS() && !stoodStill(i);
                    boolean rows = silences != null && silences.get(i) <= rule.gapFactor() * interval;
                    Break.Cause cause = rows ? Break.Cause.NO_VALUE : Break.Cause.GAP;
                    breaks.add(new Break(cause, i, line(i), time.get(i - 1), time.get(i), splits));
                } else if (step > longestIntervalS) {
                    longestIntervalS = step;
                    longestIntervalRow = i;
                }
            }
        }
        if (back > 3 && back > size / ROWS_PER_CLOCK_JUMP) {
            throw refuse(ProblemCode.LOG_TIME_UNSORTED, firstBack, back);
        }
    }

    /**
     * A logger that writes only on change is silent at rest: nothing moved from row to row by more than the step that
     * ended the silence, a count of the sensor and as much of the reference.
     */
    private boolean stoodStill(int row) {
        Double count = scale.distancePerCountMm();
        return still(indication, row, log.readingMm() == null ? 1 : 0)
                && (reference == null || still(reference, row, count == null ? 0 : 2 * count));
    }

    private static boolean still(@Nullable Column values, int row, double step) {
        return values != null && Math.abs(values.get(row) - values.get(row - 1)) <= step;
    }

    /**
     * Returns the top speed in mm/s: as stated, or the largest of the reference over stretches long enough that
     * its noise and its resolution do not matter; NaN when neither is known.
     */
    private double topSpeedMmPerS(double interval) {
        if (scale.topSpeedMmPerS() != null) {
            return scale.topSpeedMmPerS();
        }
        if (reference == null) {
            return Double.NaN;
        }
        double stretch = Math.max(10 * interval, 0.02);
        RowBlocks clock = time.blocks();
        RowBlocks moves = reference.blocks();
        double top = 0;
        int from = 0;
        for (int k = 0; k <= breaks.size(); k++) {
            int to = k < breaks.size() ? breaks.get(k).row() : size;
            Ascending rows = new Ascending(time, to);
            while (from < to) {
                int block = from / RowBlocks.ROWS;
                if (from == clock.from(block) && moves.largestMove(block) <= top * clock.leastStep(block)) {
                    // no step of it is faster than what was seen already
                    from = Math.min(clock.to(block), to);
                    continue;
                }
                int next = rows.firstAfter(from, stretch);
                if (next < to) {
                    double duration = time.get(next) - time.get(from);
                    top = Math.max(top, Math.abs(reference.get(next) - reference.get(from)) / duration);
                }
                int end = Math.min(clock.to(block), to);
                from = next < end ? next : end;
            }
        }
        return top;
    }

    /** Unwraps the counter where it has a register, and turns counts into mm. */
    private Column scaled(Column counts, double countMm, double topSpeed, double interval) {
        CounterRegister register = scale.register();
        if (log.channelA() != null) {
            warnOfSlowSampling(topSpeed, interval, countMm);
            register = null;
        }
        if (register == null) {
            return counts.times(countMm);
        }
        register = withSignOf(register, counts);
        refuseTooFast(register, topSpeed, countMm);
        boolean round = goesRound(register, counts, topSpeed, countMm);
        return (round ? unwrapped(register, counts, topSpeed, countMm) : counts).times(countMm);
    }

    /** False when the counter cannot have gone round, so that its counts are right as they stand. */
    private boolean goesRound(CounterRegister register, Column counts, double topSpeed, double countMm) {
        RowBlocks blocks = counts.blocks();
        for (int k = 0; k < blocks.count(); k++) {
            if (!(blocks.largestMove(k) < register.range() / 2)) {
                return true;
            }
        }
        return breaks.stream().anyMatch(place -> tooLongFor(register, place, topSpeed, countMm));
    }

    /** True when the register may have gone round unseen while rows are missing. */
    private static boolean tooLongFor(CounterRegister register, Break place, double topSpeed, double countMm) {
        return place.missing() && !register.canFollow(speedOr(topSpeed), place.toS() - place.fromS(), countMm);
    }

    private Column unwrapped(CounterRegister register, Column counts, double topSpeed, double countMm) {
        Column.Builder result = time.sibling(size);
        double sense = 0;
        double unwrapped = counts.get(0);
        result.add(unwrapped);
        int wraps = 0;
        int nextBreak = 0;
        for (int i = 1; i < size; i++) {
            double step = register.step(counts.get(i - 1), counts.get(i));
            if (nextBreak < breaks.size() && breaks.get(nextBreak).row() == i) {
                Break place = breaks.get(nextBreak);
                if (tooLongFor(register, place, topSpeed, countMm)) {
                    if (reference != null) {
                        sense = sense == 0 ? senseOfTravel(register, counts) : sense;
                        step = register.stepNear(
                                counts.get(i - 1),
                                counts.get(i),
                                sense * (reference.get(i) - reference.get(i - 1)) / countMm);
                    } else if (!place.splits()) {
                        breaks.set(
                                nextBreak,
                                new Break(place.cause(), place.row(), place.line(), place.fromS(), place.toS(), true));
                    }
                }
                nextBreak++;
            }
            if (step != counts.get(i) - counts.get(i - 1)) {
                wraps++;
            }
            unwrapped += step;
            result.add(unwrapped);
        }
        if (wraps > 0) {
            notes.add(Note.of(NoteCode.LOG_COUNTER_WRAPPED, log.source(), wraps, register.bits()));
        }
        return result.build();
    }

    /** Returns -1 when the sensor counts against the reference, else 1; by the smallest steps, which are right nearly everywhere. */
    private double senseOfTravel(CounterRegister register, Column counts) {
        double sum = 0;
        if (reference != null) {
            for (int i = 1; i < size; i++) {
                sum += register.step(counts.get(i - 1), counts.get(i)) * (reference.get(i) - reference.get(i - 1));
            }
        }
        return sum < 0 ? -1 : 1;
    }

    /**
     * A negative count tells that the register carries a sign, whatever was stated; steps come out the same. A count that
     * the register cannot show is refused.
     */
    private CounterRegister withSignOf(CounterRegister register, Column counts) {
        double low = counts.blocks().low(0, size - 1);
        CounterRegister signed = low < 0 ? new CounterRegister(register.bits(), true) : register;
        if (!signed.holds(low) || !signed.holds(counts.blocks().high(0, size - 1))) {
            int row = 0;
            while (signed.holds(counts.get(row))) {
                row++;
            }
            throw refuse(ProblemCode.LOG_COUNT_BEYOND_REGISTER, row, counts.get(row), signed.bits());
        }
        return signed;
    }

    private void refuseTooFast(CounterRegister register, double topSpeed, double countMm) {
        double longest = longestIntervalS;
        int at = longestIntervalRow;
        if (!register.canFollow(speedOr(topSpeed), longest, countMm)) {
            throw refuse(
                    ProblemCode.LOG_COUNTER_AMBIGUOUS,
                    at,
                    register.bits(),
                    Quantity.mmPerS(speedOr(topSpeed)),
                    seconds(longest),
                    Quantity.mm(register.range() / 2 * countMm));
        }
    }

    private static double speedOr(double topSpeed) {
        return Double.isNaN(topSpeed) ? SPEED_WHEN_UNKNOWN_MM_PER_S : topSpeed;
    }

    private void warnOfSlowSampling(double topSpeed, double interval, double countMm) {
        if (topSpeed > 0 && !edgesOnly) {
            double edges = CountingRate.edgesPerSample(topSpeed, countMm, scale.evaluation(), interval);
            if (edges >= 1) {
                notes.add(Note.of(
                        NoteCode.LOG_SAMPLING_TOO_SLOW,
                        log.source(),
                        Quantity.mmPerS(topSpeed),
                        new Quantity(edges, Unit.ONE),
                        seconds(interval)));
            }
        }
    }

    /**
     * Cuts where the indication makes a step that no travel explains: it lands at about zero, or jumps further
     * than half of the whole travel. Smaller steps stay, since a sensor that catches up after a dropout makes them too. Cuts
     * too where both are at about zero at once.
     */
    private void findCounterSteps(double topSpeed, double countMm) {
        Column shown = requireColumn(indication);
        Column referred = requireColumn(reference);
        RowBlocks blocks = shown.blocks();
        double span = referred.span();
        double fine = Double.isNaN(countMm) ? 0 : 5 * countMm;
        List<Break> found = new ArrayList<>();
        List<Break> zeroed = new ArrayList<>();
        for (int k = 0; k < blocks.count(); k++) {
            if (blocks.largestMove(k) <= fine + 5) {
                continue;
            }
            for (int i = Math.max(blocks.from(k), 1); i < blocks.to(k); i++) {
                double step = Math.abs(shown.get(i) - shown.get(i - 1));
                double moved = Math.abs(referred.get(i) - referred.get(i - 1));
                double fastest = 3 * topSpeed * Math.abs(time.get(i) - time.get(i - 1)) + fine + 5;
                double possible = Math.max(3 * moved + fine + 5, fastest);
                if (Math.min(step, moved) > fastest
                        && Math.abs(shown.get(i)) <= fine + 5
                        && Math.abs(referred.get(i)) <= 5) {
                    zeroed.add(new Break(Break.Cause.BOTH_ZEROED, i, line(i), time.get(i - 1), time.get(i), true));
                    continue;
                }
                boolean toZero = step > possible && Math.abs(shown.get(i)) <= possible - 5;
                if (toZero || step > possible + 0.5 * span + 100) {
                    found.add(new Break(Break.Cause.COUNTER_STEP, i, line(i), time.get(i - 1), time.get(i), true));
                }
            }
        }
        cutAt(found, NoteCode.LOG_COUNTER_STEP);
        cutAt(zeroed, NoteCode.LOG_BOTH_ZEROED);
    }

    /** Cuts where the reference makes a step that the indication does not. */
    private void findReferenceSteps(double topSpeed) {
        Set<Integer> unknown = breaks.stream().map(Break::row).collect(Collectors.toSet());
        List<Break> found =
                ReferenceSteps.find(time, requireColumn(reference), requireColumn(indication), topSpeed, unknown)
                        .stream()
                        .map(row -> new Break(
                                Break.Cause.REFERENCE_STEP, row, line(row), time.get(row - 1), time.get(row), true))
                        .toList();
        cutAt(found, NoteCode.LOG_REFERENCE_STEP);
    }

    private void cutAt(List<Break> found, NoteCode code) {
        if (!found.isEmpty()) {
            notes.add(Note.of(
                    code,
                    log.source(),
                    found.size(),
                    Quantity.moment(found.get(0).toS())));
            found.forEach(step -> breaks.removeIf(other -> other.row() == step.row()));
            breaks.addAll(found);
            breaks.sort((one, other) -> Integer.compare(one.row(), other.row()));
        }
    }

    private void remarkBreaks() {
        long gaps = 0;
        double longest = 0;
        double missing = 0;
        double longestAt = 0;
        long back = 0;
        double backAt = 0;
        for (Break place : breaks) {
            if (place.cause() == Break.Cause.GAP && (place.splits() || !edgesOnly)) {
                gaps++;
                missing += place.toS() - place.fromS();
                if (place.toS() - place.fromS() > longest) {
                    longest = place.toS() - place.fromS();
                    longestAt = place.fromS();
                }
            } else if (place.cause() == Break.Cause.CLOCK_BACK) {
                backAt = back++ == 0 ? place.fromS() : backAt;
            }
        }
        if (gaps > 0) {
            notes.add(Note.of(
                    NoteCode.LOG_GAPS,
                    log.source(),
                    gaps,
                    seconds(missing),
                    seconds(longest),
                    Quantity.moment(longestAt)));
        }
        if (back > 0) {
            notes.add(Note.of(NoteCode.LOG_CLOCK_BACK, log.source(), back, Quantity.moment(backAt)));
        }
    }

    private static Quantity seconds(double value) {
        return new Quantity(value, Unit.S);
    }

    private long line(int row) {
        return lines.line(row);
    }

    private BadInputException refuse(ProblemCode code, int row, Object... arguments) {
        long line = code == ProblemCode.LOG_TOO_FEW_ROWS || code == ProblemCode.LOG_DISTANCE_PER_COUNT_MISSING
                ? 0
                : line(row);
        return BadInputException.of(code, new SourcePosition(log.source(), line, 0, ""), arguments);
    }
}
