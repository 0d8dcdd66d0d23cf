package slowproof.files.log;

import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.dhatim.fastexcel.reader.ExcelReaderException;
import org.jspecify.annotations.Nullable;
import slowproof.files.packed.UnpackLimitException;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.ColumnSpace;

/**
 * How a log is understood, judged from its beginning alone, so that a person can look and correct before a large file
 * is read. Nothing of what lies further down is known yet.
 *
 * @param file what messages call the file
 * @param encoding encoding of the text, or {@code XLSX} or {@code Parquet}
 * @param separator sign between cells
 * @param decimal decimal sign
 * @param headerRows lines above the data, comments and blank lines not counted
 * @param headings one per column, empty texts when there are none
 * @param units one per column, as in a row of units below the headings, empty texts when there is none
 * @param cells up to three rows of data as written
 * @param taken which column is taken as what
 * @param firstRows up to three rows as understood, one number per column of {@code taken}; none while something is wrong
 * @param problems what is wrong, with line and column; empty when the beginning can be read
 */
public record LogBegin(
        String file,
        String encoding,
        char separator,
        char decimal,
        int headerRows,
        List<String> headings,
        List<String> units,
        List<List<String>> cells,
        List<ReadAs.Taken> taken,
        List<List<Double>> firstRows,
        List<InputProblem> problems) {
    /** Rows that are shown. */
    public static final int ROWS = 3;

    /** As much of the beginning as is looked at, in characters. */
    private static final int SAMPLE = 1 << 16;

    /** Copies the lists. */
    public LogBegin {
        headings = List.copyOf(headings);
        units = List.copyOf(units);
        cells = List.copyOf(cells);
        taken = List.copyOf(taken);
        firstRows = List.copyOf(firstRows);
        problems = List.copyOf(problems);
    }

    /** Returns true when the columns are known, whether they can be read or not. */
    public boolean hasColumns() {
        return !headings.isEmpty();
    }

    /** Returns true when the separator and the decimal sign are written in the file and not given by its kind. */
    public boolean isText() {
        return ReadAs.isText(encoding);
    }

    /**
     * Looks at the beginning of a log. What is wrong with it is told in the result, never thrown.
     *
     * @param path where it is
     * @param request what is wanted of it
     */
    public static LogBegin of(Path path, LogRequest request) {
        SourcePosition whole = SourcePosition.ofFile(request.name());
        Charset encoding = request.dialect().encoding();
        try {
            return switch (LogKind.of(path)) {
                case WORKBOOK -> sheet(path, request);
                case PARQUET -> parquet(path, request);
                case TEXT -> {
                    Foreign.refuse(path, request);
                    yield text(path, request, encoding);
                }
            };
        } catch (CharacterCodingException e) {
            String name = encoding == null ? StandardCharsets.UTF_8.name() : encoding.name();
            return unreadable(request, InputProblem.of(ProblemCode.TEXT_ENCODING, whole, name));
        } catch (BadInputException e) {
            return unreadable(request, e.problems().toArray(new InputProblem[0]));
        } catch (UnpackLimitException e) {
            long limit = e.limitBytes() >> 20;
            return unreadable(request, InputProblem.of(ProblemCode.FILE_UNPACKS_TOO_LARGE, whole, limit));
        } catch (IOException | ExcelReaderException e) {
            return unreadable(
                    request, InputProblem.of(ProblemCode.FILE_NOT_READABLE, whole, String.valueOf(e.getMessage())));
        }
    }

    private static LogBegin unreadable(LogRequest request, InputProblem... problems) {
        return new LogBegin(
                request.name(),
                "",
                ',',
                '.',
                0,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                Arrays.asList(problems));
    }

    private static LogBegin text(Path path, LogRequest request, @Nullable Charset encoding) throws IOException {
        try (RawLog raw = RawLog.open(path, encoding)) {
            return text(sample(raw.reader()), raw.charset().name(), request, request.dialect());
        } catch (CharacterCodingException e) {
            if (encoding != null) {
                throw e;
            }
            // as when the whole log is read: text of older loggers has a letter for every byte
            return text(path, request, LogReader.OLD_LOGGERS);
        }
    }

    private static LogBegin sheet(Path path, LogRequest request) throws IOException {
        Dialect dialect = request.dialect().ofSheet();
        try (Reader sheet = SheetReader.open(path, request)) {
            return text(sample(sheet), ReadAs.XLSX, request, dialect);
        }
    }

    private static LogBegin parquet(Path path, LogRequest request) throws IOException {
        LogProblems problems = new LogProblems(request.name());
        ParquetLog.Begin begin = ParquetLog.begin(path, request, problems);
        return made(
                request,
                ReadAs.PARQUET,
                begin.layout(),
                begin.cells(),
                begin.targets(),
                begin.columns(),
                problems.first());
    }

    /** Whole lines from the beginning. */
    private static String sample(Reader reader) throws IOException {
        char[] sample = new char[SAMPLE];
        int length = LogReader.fill(reader, sample);
        return LogReader.wholeLines(sample, length);
    }

    private static LogBegin text(String sample, String encoding, LogRequest request, Dialect dialect)
            throws IOException {
        LogProblems problems = new LogProblems(request.name());
        Layout layout = LayoutFinder.find(sample, dialect, problems);
        if (layout == null) {
            return made(request, encoding, null, List.of(), List.of(), List.of(), problems.first());
        }
        List<Target> targets = ColumnFinder.find(layout, request, problems);
        List<Column> columns = List.of();
        if (!problems.any()) {
            ThousandsCheck.refuse(sample, layout, targets, dialect, problems);
            CutDecimals.refuse(sample, layout, targets, dialect, problems);
        }
        if (!problems.any()) {
            DataReader data =
                    new DataReader(sample.toCharArray(), sample.length(), new StringReader(""), layout.dataLine() - 1);
            RowHandler rows = new RowHandler(layout, targets, problems, layout.dataLine() - 1, ColumnSpace.HEAP);
            LogReader.parse(data, layout, rows, problems);
            rows.finish(data.last());
            columns = problems.any() ? List.of() : rows.columns();
        }
        return made(request, encoding, layout, cells(sample, layout), targets, columns, problems.first());
    }

    private static List<List<String>> cells(String sample, Layout layout) {
        return sample.lines()
                .skip(layout.dataLine() - 1)
                .filter(line -> !line.isBlank() && line.charAt(0) != layout.comment())
                .limit(ROWS)
                .map(line -> LayoutFinder.cells(line, layout.separator()))
                .toList();
    }

    private static LogBegin made(
            LogRequest request,
            String encoding,
            @Nullable Layout layout,
            List<List<String>> cells,
            List<Target> targets,
            List<Column> columns,
            List<InputProblem> problems) {
        List<List<Double>> rows = new ArrayList<>();
        for (int i = 0; !columns.isEmpty() && i < Math.min(ROWS, columns.get(0).size()); i++) {
            int row = i;
            rows.add(columns.stream().map(column -> column.at(row)).toList());
        }
        return new LogBegin(
                request.name(),
                encoding,
                layout == null ? ',' : layout.separator(),
                layout == null ? '.' : layout.decimal(),
                layout == null ? 0 : layout.headerRows(),
                layout == null ? List.of() : layout.headings(),
                layout == null ? List.of() : layout.units(),
                cells,
                targets.stream().map(Target::taken).toList(),
                rows,
                problems);
    }
}
