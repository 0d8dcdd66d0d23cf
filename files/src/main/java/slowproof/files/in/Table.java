package slowproof.files.in;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import slowproof.files.log.DecimalSign;
import slowproof.files.log.ThousandsDoubt;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;

/**
 * A small table of text cells with its headings, separator and decimal sign recognised. Lines that start with #
 * and empty lines are passed over.
 */
final class Table {
    /**
     * One row.
     *
     * @param line line of the file where it starts, from 1
     * @param cells its cells
     */
    record Row(long line, List<String> cells) {}

    private final String file;
    private final char separator;
    private final char decimalSign;
    private final List<String> headings;
    private final List<Row> rows;

    private Table(String file, char separator, char decimalSign, List<String> headings, List<Row> rows) {
        this.file = file;
        this.separator = separator;
        this.decimalSign = decimalSign;
        this.headings = headings;
        this.rows = rows;
    }

    /**
     * Reads a table.
     *
     * @param raw the file
     * @param problems where to note rows of the wrong width
     * @throws BadInputException if there is no row below the headings, or the quotes do not match
     */
    static Table read(RawFile raw, Problems problems) {
        char separator = separator(raw.text());
        List<Row> all = new ArrayList<>();
        try (CsvReader<CsvRecord> reader = CsvReader.builder()
                .fieldSeparator(separator)
                .commentStrategy(CommentStrategy.SKIP)
                .skipEmptyLines(true)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .ofCsvRecord(raw.text())) {
            for (CsvRecord row : reader) {
                if (row.getFields().stream().anyMatch(cell -> !cell.isBlank())) {
                    all.add(new Row(row.getStartingLineNumber(), List.copyOf(row.getFields())));
                }
            }
        } catch (CsvParseException e) {
            throw BadInputException.of(
                    ProblemCode.FILE_NOT_READABLE, SourcePosition.ofFile(raw.name()), String.valueOf(e.getMessage()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        if (all.isEmpty()) {
            throw BadInputException.of(ProblemCode.FILE_EMPTY, SourcePosition.ofFile(raw.name()));
        }
        if (all.size() == 1) {
            throw BadInputException.of(
                    ProblemCode.HEADER_ONLY,
                    new SourcePosition(raw.name(), all.get(0).line(), 0, ""));
        }
        List<Row> rows = all.subList(1, all.size());
        List<String> headings = all.get(0).cells();
        Table table =
                new Table(raw.name(), separator, decimalSign(separator, headings, rows), headings, List.copyOf(rows));
        table.refuseRaggedRows(problems);
        table.askAboutTheEnd(raw.text(), problems);
        table.askAboutThousands(problems);
        return table;
    }

    /** The separator is the sign among tab, semicolon and comma that the heading line has most of. */
    private static char separator(String text) {
        String headings = text.lines()
                .filter(line -> !line.isBlank() && !line.startsWith("#"))
                .findFirst()
                .orElse("");
        char best = ',';
        long most = 0;
        for (char candidate : new char[] {'\t', ';', ','}) {
            long count = headings.chars().filter(c -> c == candidate).count();
            if (count > most) {
                most = count;
                best = candidate;
            }
        }
        return best;
    }

    /** The decimal sign is told by the columns with a unit: names and comments may look like numbers. */
    private static char decimalSign(char separator, List<String> headings, List<Row> rows) {
        int[] measured = IntStream.range(0, headings.size())
                .filter(column -> Heading.hasUnit(headings.get(column)))
                .toArray();
        List<List<String>> cells = rows.stream()
                .map(row -> Arrays.stream(measured)
                        .filter(column -> column < row.cells().size())
                        .mapToObj(row.cells()::get)
                        .toList())
                .toList();
        return DecimalSign.of(cells, separator, Numerals::readable);
    }

    private void refuseRaggedRows(Problems problems) {
        for (Row row : rows) {
            if (row.cells().size() != headings.size()) {
                SourcePosition at = new SourcePosition(file, row.line(), 0, "");
                boolean decimalCommas = separator == ',' && row.cells().size() > headings.size();
                problems.add(
                        decimalCommas ? ProblemCode.FIELD_COUNT_COMMA : ProblemCode.FIELD_COUNT,
                        at,
                        row.cells().size(),
                        headings.size());
            }
        }
    }

    /**
     * A file that broke off in its last number leaves another number, 900. or 90 of 900.2. It then ends without a line
     * end, which alone means nothing, and shows fewer decimals than every other number of that column; than the number
     * beside it, where there is no other.
     */
    private void askAboutTheEnd(String text, Problems problems) {
        char end = text.charAt(text.length() - 1);
        Row last = rows.get(rows.size() - 1);
        int column = headings.size() - 1;
        if (end == '\n' || end == '\r' || last.cells().size() != headings.size()) {
            return;
        }
        String cell = last.cells().get(column).strip();
        List<String> others = rows.subList(0, rows.size() - 1).stream()
                .filter(row -> row.cells().size() == headings.size())
                .map(row -> row.cells().get(column).strip())
                .filter(other -> !other.isEmpty())
                .toList();
        if (others.isEmpty()) {
            others = List.of(last.cells().get(Math.max(column - 1, 0)).strip());
        }
        if (!Numerals.readable(cell, decimalSign)
                || others.stream().anyMatch(other -> !Numerals.readable(other, decimalSign))) {
            return;
        }
        int decimals = others.stream()
                .mapToInt(other -> Numerals.decimals(other, decimalSign))
                .min()
                .orElse(0);
        if (Numerals.decimals(cell, decimalSign) < decimals) {
            problems.ask(ProblemCode.QUESTION_CUT_SHORT, at(last, column), cell, decimals);
        }
    }

    /** A sign that may separate thousands as well is asked about, column by column; a share is never that large. */
    private void askAboutThousands(Problems problems) {
        Map<Integer, ThousandsDoubt> doubts = new TreeMap<>();
        for (int column = 0; column < headings.size(); column++) {
            String heading = Heading.normal(headings.get(column));
            if (Heading.hasUnit(heading) && !heading.endsWith("_pct")) {
                doubts.put(column, doubt(column));
            }
        }
        boolean told = doubts.values().stream().anyMatch(ThousandsDoubt::told);
        doubts.forEach((column, doubt) -> {
            String heading = Heading.normal(headings.get(column));
            // 0 beside 1.200 is usual for metres and inches; for millimetres it is not
            boolean fine = heading.endsWith("_mm") || heading.endsWith("_um");
            if (doubt.any() || (fine && !told && doubt.onlyByZeros())) {
                problems.ask(
                        ProblemCode.QUESTION_THOUSANDS,
                        new SourcePosition(file, doubt.line(), column + 1, headings.get(column)),
                        doubt.cell(),
                        String.valueOf(decimalSign));
            }
        });
    }

    private ThousandsDoubt doubt(int column) {
        ThousandsDoubt doubt = new ThousandsDoubt(decimalSign);
        for (Row row : rows) {
            if (column < row.cells().size()) {
                doubt.see(row.cells().get(column), row.line());
            }
        }
        return doubt;
    }

    String file() {
        return file;
    }

    char separator() {
        return separator;
    }

    char decimalSign() {
        return decimalSign;
    }

    List<String> headings() {
        return headings;
    }

    List<Row> rows() {
        return rows;
    }

    /** Returns the place of a cell. */
    SourcePosition at(Row row, int column) {
        return new SourcePosition(file, row.line(), column + 1, headings.get(column));
    }
}
