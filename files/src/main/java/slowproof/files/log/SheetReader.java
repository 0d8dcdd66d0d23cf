package slowproof.files.log;

import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Iterator;
import java.util.Locale;
import java.util.stream.Stream;
import java.util.zip.ZipException;
import org.dhatim.fastexcel.reader.Cell;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ExcelReaderException;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Row;
import slowproof.files.packed.Unpacking;
import slowproof.trial.input.BadInputException;

/**
 * A spreadsheet's first sheet as text: cells separated by tabs, numbers with all their digits and the decimal sign that its
 * texts have, dates as ISO 8601, one line per row of the sheet, empty rows included, so that line numbers are row numbers.
 */
final class SheetReader extends Reader {
    /** Day 0 of spreadsheet dates; they take 1900 for a leap year, so the count is right from March 1900 on. */
    private static final LocalDateTime DAY_ZERO = LocalDateTime.of(1899, 12, 30, 0, 0);

    private static final BigDecimal MICROSECONDS_PER_DAY = BigDecimal.valueOf(86_400_000_000L);
    private static final DateTimeFormatter STAMP = DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss.SSSSSS");

    private final ReadableWorkbook workbook;
    private final Stream<Row> stream;
    private final Iterator<Row> rows;
    private final char decimal;
    private StringBuilder line = new StringBuilder();
    private int at;
    private int written;
    private int width;

    /**
     * Opens the first sheet of a workbook, once it is known to unpack to no more than it may.
     *
     * @param path where it is
     * @param request what is wanted of it; the decimal sign of its dialect is that of numbers kept as text
     * @throws BadInputException if it is no workbook, or a damaged one
     * @throws IOException if it cannot be read, or unpacks to too much
     */
    static SheetReader open(Path path, LogRequest request) throws IOException {
        try {
            Unpacking.checkArchive(path);
            try (InputStream in = Files.newInputStream(path)) {
                return new SheetReader(
                        new ReadableWorkbook(in, new ReadingOptions(true, false)),
                        request.dialect().decimalOrPoint());
            }
        } catch (ZipException | ExcelReaderException e) {
            throw Foreign.refusal(request, ForeignKind.ZIP);
        }
    }

    /** Opens the first sheet of a workbook; the workbook is closed with the reader. */
    private SheetReader(ReadableWorkbook workbook, char decimal) throws IOException {
        this.workbook = workbook;
        this.decimal = decimal;
        this.stream = workbook.getFirstSheet().openStream();
        this.rows = stream.iterator();
    }

    @Override
    public int read(char[] target, int from, int wanted) {
        while (at == line.length()) {
            if (!rows.hasNext()) {
                return -1;
            }
            fill(rows.next());
        }
        int count = Math.min(wanted, line.length() - at);
        line.getChars(at, at + count, target, from);
        at += count;
        return count;
    }

    private void fill(Row row) {
        line.setLength(0);
        at = 0;
        while (written < row.getRowNum() - 1) {
            line.append('\n');
            written++;
        }
        // empty cells at the end of a row are left out of the sheet, but belong to the table
        width = Math.max(width, row.getCellCount());
        for (int i = 0; i < width; i++) {
            line.append(i == 0 ? "" : "\t");
            Cell cell = i < row.getCellCount() ? row.getCell(i) : null;
            if (cell != null) {
                line.append(text(cell));
            }
        }
        line.append('\n');
        written++;
    }

    private String text(Cell cell) {
        if (cell.getType() == CellType.NUMBER) {
            return isDate(cell) ? stamp(cell.asNumber()) : cell.getRawValue().replace('.', decimal);
        }
        String text = cell.getType() == CellType.FORMULA ? cell.getRawValue() : cell.getText();
        if (text == null) {
            return "";
        }
        if (cell.getType() == CellType.FORMULA && cell.getValue() instanceof BigDecimal) {
            return text.replace('.', decimal);
        }
        boolean plain = text.chars().noneMatch(c -> c == '\t' || c == '"' || c == '\n' || c == '\r');
        return plain ? text : '"' + text.replace("\"", "\"\"") + '"';
    }

    private static boolean isDate(Cell cell) {
        String format = cell.getDataFormatString();
        if (format == null) {
            return false;
        }
        String bare = format.toLowerCase(Locale.ROOT).replaceAll("\"[^\"]*\"|\\[[^\\]]*\\]", "");
        return bare.indexOf('y') >= 0 || (bare.indexOf('h') >= 0 && bare.indexOf('m') >= 0);
    }

    private static String stamp(BigDecimal days) {
        long microseconds = days.multiply(MICROSECONDS_PER_DAY)
                .setScale(0, RoundingMode.HALF_EVEN)
                .longValue();
        return STAMP.format(
                DAY_ZERO.plusSeconds(microseconds / 1_000_000).plusNanos(1000 * (microseconds % 1_000_000)));
    }

    @Override
    public void close() throws IOException {
        stream.close();
        workbook.close();
    }
}
