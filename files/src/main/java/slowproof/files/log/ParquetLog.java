package slowproof.files.log;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.ColumnSpace;

/**
 * Reads a log that is kept as columns in a Parquet file, through DuckDB: numbers of any kind, truth values and time
 * stamps. An empty or undefined number counts as an empty cell. Rows are numbered from 1 in messages.
 */
final class ParquetLog {
    private static final long MICROSECONDS_PER_DAY = 86_400_000_000L;
    private static final char NO_COMMENT = '\uffff';

    private final String source;
    private final Statement statement;
    private final LogRequest request;
    private final LogProblems problems;
    private final ColumnSpace space;
    private final TimeStamps stamps = new TimeStamps();

    private final char decimal;

    private List<String> headings = List.of();

    /** Kinds of the columns, as the database calls them. */
    private List<String> kinds = List.of();

    private ParquetLog(Path path, Statement statement, LogRequest request, LogProblems problems, ColumnSpace space) {
        this.statement = statement;
        this.source = "read_parquet('" + path.toAbsolutePath().toString().replace("'", "''") + "')";
        this.request = request;
        this.decimal = request.dialect().decimalOrPoint();
        this.problems = problems;
        this.space = space;
    }

    /**
     * What was read.
     *
     * @param layout headings and first row
     * @param targets columns taken
     * @param columns their numbers
     */
    record Content(Layout layout, List<Target> targets, List<Column> columns) {}

    /**
     * Returns the content, or null with a problem noted.
     *
     * @throws IOException if the file cannot be read as Parquet
     */
    static @Nullable Content read(Path path, LogRequest request, LogProblems problems, ColumnSpace space)
            throws IOException {
        return in(path, request, problems, space, log -> Optional.ofNullable(log.read()))
                .orElse(null);
    }

    /** The beginning of a log: its columns, and the first rows as written and as read. */
    record Begin(@Nullable Layout layout, List<List<String>> cells, List<Target> targets, List<Column> columns) {}

    /**
     * Returns the beginning; what is wrong with it is noted.
     *
     * @throws IOException if the file cannot be read as Parquet
     */
    static Begin begin(Path path, LogRequest request, LogProblems problems) throws IOException {
        return in(path, request, problems, ColumnSpace.HEAP, ParquetLog::begin);
    }

    /** What is done with an open file. */
    private interface Work<T> {
        T with(ParquetLog log) throws SQLException;
    }

    private static <T> T in(Path path, LogRequest request, LogProblems problems, ColumnSpace space, Work<T> work)
            throws IOException {
        // an in-memory database that fetches nothing from anywhere and leaves nothing behind
        try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
                Statement statement = connection.createStatement()) {
            statement.execute("SET autoinstall_known_extensions = false");
            statement.execute("SET autoload_known_extensions = false");
            statement.execute("SET memory_limit = '512MB'");
            return work.with(new ParquetLog(path, statement, request, problems, space));
        } catch (SQLException e) {
            throw new IOException(firstLine(String.valueOf(e.getMessage())), e);
        }
    }

    private static String firstLine(String message) {
        return message.lines().findFirst().orElse("");
    }

    private Begin begin() throws SQLException {
        Layout layout = layout();
        if (layout == null) {
            problems.add(ProblemCode.LOG_COLUMNS_ONLY, 0, 0, "", String.join(", ", headings));
            return new Begin(null, List.of(), List.of(), List.of());
        }
        List<List<String>> cells = new ArrayList<>();
        try (ResultSet first = statement.executeQuery("SELECT * FROM " + source + " LIMIT " + LogBegin.ROWS)) {
            while (first.next()) {
                cells.add(cells(first, layout.cells()));
            }
        }
        List<Target> targets = ColumnFinder.find(layout, request, problems);
        List<Column> columns = problems.any() ? List.of() : rows(layout, targets, " LIMIT " + LogBegin.ROWS);
        return new Begin(layout, cells, targets, problems.any() ? List.of() : columns);
    }

    private static List<String> cells(ResultSet row, int count) throws SQLException {
        List<String> cells = new ArrayList<>();
        for (int i = 1; i <= count; i++) {
            String cell = row.getString(i);
            cells.add(cell == null ? "" : cell);
        }
        return cells;
    }

    private @Nullable Content read() throws SQLException {
        Layout layout = layout();
        if (layout == null) {
            problems.add(ProblemCode.LOG_COLUMNS_ONLY, 0, 0, "", String.join(", ", headings));
            return null;
        }
        List<Target> targets = ColumnFinder.find(layout, request, problems);
        return problems.any() ? null : new Content(layout, targets, rows(layout, targets, ""));
    }

    /** Returns the columns of so many rows. */
    private List<Column> rows(Layout layout, List<Target> targets, String limit) throws SQLException {
        List<Column.Builder> columns = new ArrayList<>();
        String wanted =
                targets.stream().map(target -> expression(layout, target)).collect(Collectors.joining(", "));
        try (ResultSet rows = statement.executeQuery("SELECT " + wanted + " FROM " + source + limit)) {
            for (int k = 0; k < targets.size(); k++) {
                columns.add(new Column.Builder(1 << 12, space));
            }
            double[] midnight = new double[targets.size()];
            for (long row = 1; rows.next(); row++) {
                for (int k = 0; k < targets.size(); k++) {
                    double number = rows.getDouble(2 * k + 1);
                    boolean known = !rows.wasNull() && !Double.isNaN(number);
                    Target target = targets.get(k);
                    if (target.stamps() && known && isClock(target)) {
                        number = stamps.runOn(number / 1e6);
                    } else if (target.stamps() && known) {
                        if (row == 1) {
                            midnight[k] = number - number % MICROSECONDS_PER_DAY;
                        }
                        number = (number - midnight[k]) / 1e6;
                    }
                    columns.get(k).add(known ? value(target, number, row) : missing(rows, k, target, row));
                }
            }
        }
        return columns.stream().map(Column.Builder::build).toList();
    }

    /** Returns true for a column of clock times without a date. */
    private boolean isClock(Target target) {
        String kind = kinds.get(target.index());
        return kind.startsWith("TIME") && !kind.startsWith("TIMESTAMP");
    }

    private double value(Target target, double number, long row) {
        double value = target.value(number);
        if (Double.isInfinite(number)) {
            problems.add(ProblemCode.NOT_FINITE, row, target.index() + 1, target.heading(), String.valueOf(number));
        } else if (!target.permitted(value)) {
            ProblemCode code = target.refusal();
            problems.add(code, row, target.index() + 1, target.heading(), String.valueOf(number), expected(code));
        }
        return value;
    }

    /**
     * Returns true for a column of texts that the database cannot make numbers of: stamps, and numbers with a decimal comma,
     * beside which a point would separate thousands.
     */
    private boolean isText(Target target) {
        return kinds.get(target.index()).equals("VARCHAR") && (target.stamps() || decimal != '.');
    }

    /** A cell without a number is empty, or a text; one that is no number is wrong. */
    private double missing(ResultSet rows, int k, Target target, long row) throws SQLException {
        String text = rows.getString(2 * k + 2);
        if (text != null && target.role() == ColumnRole.VALID && !text.isBlank()) {
            return flag(target, text, row);
        }
        if (text == null || text.isBlank()) {
            return Double.NaN;
        }
        double number = target.stamps()
                ? stamps.seconds(text.toCharArray(), 0, text.length())
                : isText(target) ? CellNumber.parse(text, decimal) : Double.NaN;
        if (!Double.isNaN(number)) {
            return value(target, number, row);
        }
        if (target.stamps()) {
            problems.add(
                    ProblemCode.LOG_STAMP,
                    row,
                    target.index() + 1,
                    target.heading(),
                    Cells.shown(text),
                    TimeStamps.FORMS);
        } else if (CellNumber.notFiniteWord(text) && isText(target)) {
            problems.add(ProblemCode.NOT_FINITE, row, target.index() + 1, target.heading(), Cells.shown(text));
        } else if (!CellNumber.notFiniteWord(text)) {
            problems.add(
                    ProblemCode.NOT_A_NUMBER,
                    row,
                    target.index() + 1,
                    target.heading(),
                    Cells.shown(text),
                    String.valueOf(decimal));
        }
        return Double.NaN;
    }

    private static String expected(ProblemCode code) {
        return code == ProblemCode.OUT_OF_RANGE ? "0 to 100 %" : code == ProblemCode.LOG_COUNT_NOT_WHOLE ? "." : "";
    }

    /** A flag may be written as a word. */
    private double flag(Target target, String text, long row) {
        double word = CellNumber.flag(text);
        double value = target.value(Double.isNaN(word) ? CellNumber.parse(text, decimal) : word);
        if (!target.permitted(value)) {
            problems.add(ProblemCode.LOG_FLAG, row, target.index() + 1, target.heading(), Cells.shown(text), "");
        }
        return value;
    }

    /** Two expressions for a column: its number, and its text where it has no number. */
    private String expression(Layout layout, Target target) {
        String name = "\"" + layout.headings().get(target.index()).replace("\"", "\"\"") + "\"";
        if (isText(target)) {
            return "NULL::DOUBLE, " + name;
        }
        String number = target.stamps() ? "epoch_us(" + name + ")::DOUBLE" : "TRY_CAST(" + name + " AS DOUBLE)";
        return number + ", CASE WHEN " + number + " IS NULL THEN " + name + "::VARCHAR END";
    }

    private @Nullable Layout layout() throws SQLException {
        try (ResultSet first = statement.executeQuery("SELECT * FROM " + source + " LIMIT 1")) {
            ResultSetMetaData about = first.getMetaData();
            List<String> names = new ArrayList<>();
            List<String> found = new ArrayList<>();
            for (int i = 1; i <= about.getColumnCount(); i++) {
                names.add(about.getColumnName(i));
                found.add(about.getColumnTypeName(i));
            }
            headings = List.copyOf(names);
            kinds = List.copyOf(found);
            if (!first.next()) {
                return null;
            }
            List<String> cells = cells(first, headings.size());
            List<String> units = Collections.nCopies(headings.size(), "");
            return new Layout('\t', decimal, NO_COMMENT, 1, 1, headings.size(), headings, units, 1, cells, null);
        }
    }
}
