package slowproof.files.log;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongConsumer;
import org.dhatim.fastexcel.reader.ExcelReaderException;
import org.jspecify.annotations.Nullable;
import slowproof.files.cache.CacheFolder;
import slowproof.files.cache.Fingerprints;
import slowproof.files.packed.UnpackLimitException;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.recording.BreakRule;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.ColumnSpace;
import slowproof.trial.recording.LoggedColumns;
import slowproof.trial.recording.Recording;
import slowproof.trial.recording.RecordingAssembler;
import slowproof.trial.recording.RowLines;
import slowproof.trial.recording.SensorScale;

/**
 * Reads a log into a recording: text with any usual separator, decimal sign, encoding and headings, plain or packed
 * with gzip, columns of a Parquet file, or the first sheet of a workbook (XLSX). The log streams through; nothing of it is
 * kept but the wanted numbers, and these outside the heap where they would fill it.
 */
public final class LogReader {
    /** As much of the beginning as the layout is recognised from. */
    private static final int SAMPLE = 1 << 16;

    /** The encoding of text that is not UTF-8: it has a letter for every byte. */
    static final Charset OLD_LOGGERS = Charset.forName("windows-1252");

    private final Path path;
    private final LogRequest request;
    private final CacheFolder cache;
    private final SourcePosition whole;
    private final ColumnSpace space;
    private final ReadingProgress progress;

    private LogReader(Path path, LogRequest request, CacheFolder cache, ColumnSpace space, ReadingProgress progress) {
        this.path = path;
        this.request = request;
        this.cache = cache;
        this.space = space;
        this.progress = progress;
        this.whole = SourcePosition.ofFile(request.name());
    }

    /**
     * Reads a log.
     *
     * @param path where it is
     * @param request what is wanted of it
     * @throws BadInputException with all that is wrong with the file: the first twenty problems and the number of
     *     others, each with line, column and what was found
     */
    public static LogResult read(Path path, LogRequest request) {
        return read(path, request, CacheFolder.NONE, ReadingProgress.NONE);
    }

    /**
     * Reads a log, or takes the columns of a large one from the cache, and keeps them there.
     *
     * @param path where it is
     * @param request what is wanted of it
     * @param cache where columns of large logs are kept
     * @param progress who learns how far that is, while it takes its time
     * @throws BadInputException with all that is wrong with the file, as without a cache
     */
    public static LogResult read(Path path, LogRequest request, CacheFolder cache, ReadingProgress progress) {
        return read(path, request, cache, WorkingSpace.of(request.name(), cache::scratch), progress);
    }

    /** Reads a log into columns that are kept in a space. */
    static LogResult read(
            Path path, LogRequest request, CacheFolder cache, ColumnSpace space, ReadingProgress progress) {
        LogRead read = new LogReader(path, request, cache, space, progress).columns();
        Recording recording = RecordingAssembler.assemble(logged(read), request.scale(), request.breaks());
        return new LogResult(recording, read.readAs(), read.sha256(), read.notes());
    }

    /**
     * Reads speed over time, from a log in any of the forms that recordings may have.
     *
     * @param path where it is
     * @param name what messages call the file
     * @param columns which column holds what
     * @param dialect how it is written
     * @throws BadInputException with all that is wrong with the file; an empty cell and a time that goes back are wrong
     */
    public static SpeedRows readSpeed(Path path, String name, ColumnMapping columns, Dialect dialect) {
        LogRequest request =
                new LogRequest(name, LogPart.SPEED, columns, dialect, SensorScale.none(), null, BreakRule.DEFAULT);
        return SpeedRows.of(new LogReader(
                        path,
                        request,
                        CacheFolder.NONE,
                        WorkingSpace.of(name, CacheFolder.NONE::scratch),
                        ReadingProgress.NONE)
                .columns());
    }

    private LogRead columns() {
        Fingerprints fingerprints = new Fingerprints(cache);
        String known = fingerprints.known(path);
        KeptColumns kept = known == null ? null : KeptColumns.get(cache, KeptColumns.name(known, request), space);
        if (known != null && kept != null) {
            return result(kept, known);
        }
        String facts = cache.worthwhile(path) ? fingerprints.facts(path) : null;
        LogRead result = read();
        fingerprints.remember(path, facts, result.sha256());
        return result;
    }

    private LogRead read() {
        if (!Files.exists(path)) {
            throw BadInputException.of(
                    ProblemCode.FILE_NOT_FOUND, whole, path.toAbsolutePath().toString());
        }
        if (Files.isDirectory(path)) {
            throw BadInputException.of(ProblemCode.FILE_NOT_READABLE, whole, "a folder");
        }
        Charset encoding = request.dialect().encoding();
        try {
            LogKind kind = LogKind.of(path);
            if (kind == LogKind.WORKBOOK) {
                return readSheet();
            }
            if (kind == LogKind.PARQUET) {
                return readParquet();
            }
            Foreign.refuse(path, request);
            long size = Files.size(path);
            LongConsumer told = bytes -> progress.at(request.name(), bytes, size);
            try (RawLog raw = RawLog.open(path, encoding, told)) {
                return read(raw);
            } catch (CharacterCodingException e) {
                // text of older loggers is not UTF-8; their encoding has a letter for every byte
                if (encoding != null) {
                    throw e;
                }
                try (RawLog raw = RawLog.open(path, OLD_LOGGERS, told)) {
                    return read(raw);
                }
            }
        } catch (CharacterCodingException e) {
            String name = encoding == null ? StandardCharsets.UTF_8.name() : encoding.name();
            throw BadInputException.of(ProblemCode.TEXT_ENCODING, whole, name);
        } catch (UnpackLimitException e) {
            throw BadInputException.of(ProblemCode.FILE_UNPACKS_TOO_LARGE, whole, e.limitBytes() >> 20);
        } catch (IOException | ExcelReaderException e) {
            throw BadInputException.of(ProblemCode.FILE_NOT_READABLE, whole, String.valueOf(e.getMessage()));
        }
    }

    private LogRead readParquet() throws IOException {
        LogProblems problems = new LogProblems(request.name());
        ParquetLog.Content content = ParquetLog.read(path, request, problems, space);
        problems.refuseIfAny();
        if (content == null) {
            throw new IllegalStateException("a log without content has a problem");
        }
        return result(
                content.layout(),
                content.targets(),
                content.columns(),
                RowLines.from(1),
                ReadAs.PARQUET,
                RawLog.sha256Of(path),
                List.of());
    }

    private LogRead readSheet() throws IOException {
        Dialect dialect = request.dialect().ofSheet();
        try (Reader sheet = SheetReader.open(path, request)) {
            return read(sheet, ReadAs.XLSX, dialect, null);
        }
    }

    private LogRead read(RawLog raw) throws IOException {
        return read(raw.reader(), raw.charset().name(), request.dialect(), raw);
    }

    /**
     * Reads text.
     *
     * @param raw where the text comes from, for the quick way and the fingerprint; null when it is made of something else
     */
    private LogRead read(Reader reader, String encoding, Dialect dialect, @Nullable RawLog raw) throws IOException {
        LogProblems problems = new LogProblems(request.name());
        char[] sample = new char[SAMPLE];
        int length = fill(reader, sample);
        String beginning = wholeLines(sample, length);
        Layout layout = LayoutFinder.find(beginning, dialect, problems);
        problems.refuseIfAny();
        if (layout == null) {
            throw new IllegalStateException("a log without layout has a problem");
        }
        List<Target> targets = ColumnFinder.find(layout, request, problems);
        problems.refuseIfAny();
        ThousandsCheck.refuse(beginning, layout, targets, dialect, problems);
        CutDecimals.refuse(beginning, layout, targets, dialect, problems);
        problems.refuseIfAny();
        PlainLog.Content plain =
                raw == null || layout.needsQuotes() ? null : PlainLog.read(path, raw, layout, targets, space);
        if (plain != null) {
            RowLines lines = RowLines.from(layout.dataLine());
            List<Note> notes = plain.cutShort()
                    ? List.of(cutShort(lines.line(plain.columns().get(0).size())))
                    : List.of();
            return result(layout, targets, plain.columns(), lines, encoding, plain.sha256(), notes);
        }
        DataReader data = new DataReader(sample, length, reader, layout.dataLine() - 1);
        RowHandler rows = new RowHandler(layout, targets, problems, layout.dataLine() - 1, space);
        parse(data, layout, rows, problems);
        rows.finish(data.last());
        if (rows.rows() == 0) {
            problems.add(ProblemCode.LOG_NO_ROWS, layout.dataLine(), 0, "");
        }
        problems.refuseIfAny();
        String sha256 = raw == null ? RawLog.sha256Of(path) : raw.sha256OfAll();
        return result(layout, targets, rows.columns(), rows.lines(), encoding, sha256, lastRow(rows));
    }

    private List<Note> lastRow(RowHandler rows) {
        if (rows.lineBrokenOff() > 0) {
            return List.of(Note.of(NoteCode.LOG_LAST_ROW_BROKEN, request.name(), rows.lineBrokenOff()));
        }
        return rows.lineCutShort() > 0 ? List.of(cutShort(rows.lineCutShort())) : List.of();
    }

    private Note cutShort(long line) {
        return Note.of(NoteCode.LOG_LAST_ROW_CUT, request.name(), line);
    }

    static int fill(Reader reader, char[] buffer) throws IOException {
        int length = 0;
        while (length < buffer.length) {
            int read = reader.read(buffer, length, buffer.length - length);
            if (read < 0) {
                break;
            }
            length += read;
        }
        return length;
    }

    static String wholeLines(char[] sample, int length) {
        int end = length;
        if (length == sample.length) {
            while (end > 0 && sample[end - 1] != '\n' && sample[end - 1] != '\r') {
                end--;
            }
        }
        return new String(sample, 0, end == 0 ? length : end);
    }

    static void parse(Reader data, Layout layout, RowHandler rows, LogProblems problems) throws IOException {
        try (CsvReader<Object> csv = CsvReader.builder()
                .fieldSeparator(layout.separator())
                .commentStrategy(CommentStrategy.SKIP)
                .commentCharacter(layout.comment())
                .skipEmptyLines(true)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .build(rows, data)) {
            csv.forEach(row -> {});
        } catch (CsvParseException e) {
            problems.add(ProblemCode.LOG_QUOTES, rows.line(), 0, "", String.valueOf(e.getMessage()));
        } catch (UncheckedIOException e) {
            IOException cause = e.getCause();
            throw cause == null ? new IOException(e) : cause;
        }
    }

    private LogRead result(
            Layout layout,
            List<Target> targets,
            List<Column> columns,
            RowLines lines,
            String encoding,
            String sha256,
            List<Note> remarks) {
        ReadAs readAs = new ReadAs(
                request.name(),
                encoding,
                layout.separator(),
                layout.decimal(),
                layout.headerRows(),
                targets.stream().map(Target::taken).toList(),
                LeftColumns.headings(layout, targets),
                columns.get(0).size(),
                firstRows(columns));
        List<Note> notes = new ArrayList<>(remarks);
        notes.add(Note.of(NoteCode.LOG_READ_AS, request.name(), readAs.summary()));
        notes.addAll(LeftColumns.notes(layout, request, targets));
        if (lines.unbroken() && cache.worthwhile(path)) {
            new KeptColumns(readAs, notes, lines.line(0), columns).put(cache, KeptColumns.name(sha256, request));
        }
        return new LogRead(readAs, columns, lines, sha256, List.copyOf(notes));
    }

    private static LogRead result(KeptColumns kept, String sha256) {
        return new LogRead(kept.readAs(), kept.columns(), RowLines.from(kept.firstLine()), sha256, kept.notes());
    }

    private static List<List<Double>> firstRows(List<Column> columns) {
        List<List<Double>> rows = new ArrayList<>();
        for (int i = 0; i < Math.min(3, columns.get(0).size()); i++) {
            List<Double> row = new ArrayList<>();
            for (Column column : columns) {
                row.add(column.at(i));
            }
            rows.add(List.copyOf(row));
        }
        return rows;
    }

    private static LoggedColumns logged(LogRead read) {
        Column time = read.column(ColumnRole.TIME);
        if (time == null) {
            throw new IllegalStateException("a log without time has a problem");
        }
        return new LoggedColumns(
                read.readAs().file(),
                read.lines(),
                time,
                read.column(ColumnRole.COUNT),
                read.column(ColumnRole.READING),
                read.column(ColumnRole.CHANNEL_A),
                read.column(ColumnRole.CHANNEL_B),
                read.column(ColumnRole.REFERENCE),
                dropout(read));
    }

    private static @Nullable Column dropout(LogRead read) {
        for (ColumnRole role : List.of(ColumnRole.DROPOUT, ColumnRole.VALID, ColumnRole.LEVEL)) {
            Column column = read.column(role);
            if (column != null) {
                return column;
            }
        }
        return null;
    }
}
