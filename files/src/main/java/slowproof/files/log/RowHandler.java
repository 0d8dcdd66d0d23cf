package slowproof.files.log;

import de.siegmar.fastcsv.reader.CsvCallbackHandler;
import de.siegmar.fastcsv.reader.RecordType;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.ColumnSpace;
import slowproof.trial.recording.RowLines;

/**
 * Takes the cells of a log as the parser comes upon them and turns those that are wanted into numbers, without a
 * text object per cell. A row is only taken when the next one begins, since the last one may have broken off.
 * Problems carry line and column. One reading thread.
 */
final class RowHandler extends CsvCallbackHandler<Object> {
    private static final Object ROW = new Object();

    private final Layout layout;
    private final LogProblems problems;
    private final long linesBefore;
    private final List<Target> targets;

    /** Place in {@link #targets} of each column, -1 for columns left alone. */
    private final int[] placeOf;

    private final boolean lastWanted;
    private double[] row;
    private final Column.Builder[] columns;
    private final RowLines.Builder lines = new RowLines.Builder();
    private final TimeStamps stamps = new TimeStamps();
    private RecordType type = RecordType.DATA;
    private long line;
    private int cells;
    private boolean spoiled;
    private boolean tooMany;

    /** What is wrong with the cell in the last column, told once it is known not to be cut short. */
    private @Nullable Spoilt held;

    private final LastCell lastCells;
    private char[] last = new char[32];
    private int lastLength;
    private boolean lastQuoted;

    /** The row before: taken, or found to be broken off, when it is known whether another one follows. */
    private boolean waiting;

    /** A comment stands below that row. */
    private boolean followed;

    private long waitingLine;
    private int waitingCells;
    private boolean waitingSpoiled;
    private @Nullable Spoilt waitingHeld;
    private double[] waitingRow;
    private long brokenLine;
    private long cutLine;
    private long rows;

    private record Spoilt(ProblemCode code, Target target, String cell) {}

    /**
     * Creates a handler.
     *
     * @param linesBefore lines of the file above the first that the parser sees
     * @param space where the columns go
     */
    RowHandler(Layout layout, List<Target> targets, LogProblems problems, long linesBefore, ColumnSpace space) {
        this.layout = layout;
        this.targets = targets;
        this.problems = problems;
        this.linesBefore = linesBefore;
        this.placeOf = new int[layout.cells()];
        Arrays.fill(placeOf, -1);
        for (int k = 0; k < targets.size(); k++) {
            placeOf[targets.get(k).index()] = k;
        }
        this.lastWanted = placeOf[placeOf.length - 1] >= 0;
        this.lastCells = new LastCell(layout.decimal());
        this.row = new double[targets.size()];
        this.waitingRow = new double[targets.size()];
        this.columns = new Column.Builder[targets.size()];
        for (int k = 0; k < columns.length; k++) {
            columns[k] = new Column.Builder(1 << 12, space);
        }
    }

    @Override
    protected void beginRecord(long startingLine) {
        line = linesBefore + startingLine;
        cells = 0;
        spoiled = false;
        tooMany = false;
        held = null;
        type = RecordType.DATA;
        Arrays.fill(row, Double.NaN);
    }

    @Override
    protected void addField(char[] text, int from, int length, boolean quoted) {
        int place = cells < placeOf.length ? placeOf[cells] : -1;
        cells++;
        tooMany |= cells > layout.cells() && !harmless(text, from, length);
        if (cells == 1 && waiting && waitingCells >= layout.cells()) {
            lastCells.add(last, 0, lastLength);
        }
        if (place >= 0) {
            row[place] = number(targets.get(place), text, from, length);
        }
        if (lastWanted && cells == placeOf.length) {
            last = length > last.length ? new char[2 * length] : last;
            System.arraycopy(text, from, last, 0, length);
            lastLength = length;
            lastQuoted = quoted;
        }
    }

    /**
     * One cell more harms nobody, empty behind a separator at the end of the line, or with a remark. But where a comma may
     * have cut a number that lacks its quotes, all cells behind it stand in wrong columns.
     */
    private boolean harmless(char[] text, int from, int length) {
        boolean one = cells == layout.cells() + 1;
        return one && !layout.needsQuotes() && (layout.separator() != ',' || new String(text, from, length).isBlank());
    }

    private double number(Target target, char[] text, int from, int length) {
        double number = target.stamps()
                ? stamps.seconds(text, from, length)
                : CellNumber.parse(text, from, length, layout.decimal());
        if (Double.isNaN(number) && target.role() == ColumnRole.VALID) {
            number = CellNumber.flag(new String(text, from, length));
        }
        if (Double.isNaN(number)) {
            String cell = new String(text, from, length);
            if (!cell.isBlank()) {
                problem(code(target, cell), target, cell);
            }
            return Double.NaN;
        }
        double value = target.value(number);
        if (!target.permitted(value)) {
            problem(target.refusal(), target, new String(text, from, length));
        }
        return value;
    }

    private ProblemCode code(Target target, String cell) {
        if (target.stamps()) {
            return ProblemCode.LOG_STAMP;
        }
        if (target.role() == ColumnRole.VALID) {
            return ProblemCode.LOG_FLAG;
        }
        if (CellNumber.notFiniteWord(cell)) {
            return ProblemCode.NOT_FINITE;
        }
        boolean byComma = Thousands.byComma(cell);
        char other = layout.decimal() == '.' ? ',' : '.';
        if (!Double.isNaN(CellNumber.parse(cell, other))) {
            return byComma && layout.separator() == ',' ? ProblemCode.LOG_COMMA_UNCLEAR : ProblemCode.DECIMAL_COMMA;
        }
        return byComma || Thousands.byPoint(cell) ? ProblemCode.DECIMAL_COMMA : ProblemCode.NOT_A_NUMBER;
    }

    private void problem(ProblemCode code, Target target, String cell) {
        spoiled = true;
        if (cells == placeOf.length) {
            held = new Spoilt(code, target, cell);
        } else {
            problem(line, cells, new Spoilt(code, target, cell));
        }
    }

    private void problem(long line, int column, Spoilt spoilt) {
        Target target = spoilt.target();
        ProblemCode code = spoilt.code();
        String shown = Cells.shown(spoilt.cell());
        String field = target.heading().isEmpty() ? target.role().key() : target.heading();
        if (code == ProblemCode.NOT_A_NUMBER || code == ProblemCode.DECIMAL_COMMA) {
            problems.add(code, line, column, field, shown, String.valueOf(layout.decimal()));
        } else if (code == ProblemCode.OUT_OF_RANGE) {
            problems.add(code, line, column, field, shown, "0 to 100 %");
        } else if (code == ProblemCode.LOG_STAMP) {
            problems.add(code, line, column, field, shown, TimeStamps.FORMS);
        } else if (code == ProblemCode.LOG_FLAG) {
            problems.add(code, line, column, field, shown, layout.separator() == ',' ? "," : "");
        } else if (code == ProblemCode.LOG_COUNT_NOT_WHOLE) {
            problems.add(code, line, column, field, shown, String.valueOf(layout.decimal()));
        } else {
            problems.add(code, line, column, field, shown);
        }
    }

    @Override
    protected void setComment(char[] text, int from, int length) {
        type = RecordType.COMMENT;
        followed = true;
    }

    @Override
    protected void setEmpty() {
        type = RecordType.EMPTY;
    }

    @Override
    protected @Nullable Object buildRecord() {
        if (type != RecordType.DATA) {
            return ROW;
        }
        takeWaiting();
        if (tooMany) {
            boolean decimalComma = layout.separator() == ',' && layout.decimal() == '.';
            problems.add(
                    decimalComma ? ProblemCode.FIELD_COUNT_COMMA : ProblemCode.FIELD_COUNT,
                    line,
                    0,
                    "",
                    cells,
                    layout.cells());
            return ROW;
        }
        double[] free = waitingRow;
        waitingRow = row;
        row = free;
        waiting = true;
        followed = false;
        waitingLine = line;
        waitingCells = cells;
        waitingSpoiled = spoiled;
        waitingHeld = held;
        return ROW;
    }

    /** Takes the row before, which has its line end. */
    private void takeWaiting() {
        if (!waiting) {
            return;
        }
        waiting = false;
        if (waitingCells < layout.cells()) {
            problems.add(ProblemCode.FIELD_COUNT, waitingLine, 0, "", waitingCells, layout.cells());
            return;
        }
        if (waitingHeld != null) {
            problem(waitingLine, placeOf.length, waitingHeld);
        }
        if (!waitingSpoiled) {
            for (int k = 0; k < columns.length; k++) {
                columns[k].add(waitingRow[k]);
            }
            lines.add(waitingLine);
        }
        rows++;
    }

    /**
     * Takes the last row, unless it broke off.
     *
     * @param end last sign of the text
     */
    void finish(char end) {
        boolean ended = end == '\n' || end == '\r';
        if (waiting && waitingCells < layout.cells()) {
            brokenLine = waitingLine;
            waiting = false;
        } else if (waiting && !ended && !followed && lastDoubtful(end)) {
            cutLine = waitingLine;
            waiting = false;
        }
        takeWaiting();
    }

    private boolean lastDoubtful(char end) {
        return lastWanted
                && waitingCells == layout.cells()
                && !(lastQuoted ? LastCell.closed(last, lastLength, end) : lastCells.whole(last, 0, lastLength));
    }

    @Override
    protected RecordType getRecordType() {
        return type;
    }

    @Override
    protected int getFieldCount() {
        return cells;
    }

    /** Returns the line of the row that is being read. */
    long line() {
        return line;
    }

    /** Returns the line of a last row that broke off, as when a logger is switched off while writing; 0 for none. */
    long lineBrokenOff() {
        return brokenLine;
    }

    /** Returns the line of a last row without line end whose last cell may be cut short; 0 for none. */
    long lineCutShort() {
        return cutLine;
    }

    /** Returns the number of rows with all their cells. */
    long rows() {
        return rows;
    }

    /** Hands the columns over, in the order of the targets. */
    List<Column> columns() {
        List<Column> all = new ArrayList<>();
        for (Column.Builder column : columns) {
            all.add(column.build());
        }
        return all;
    }

    /** Returns where each row stands. */
    RowLines lines() {
        return lines.build();
    }
}
