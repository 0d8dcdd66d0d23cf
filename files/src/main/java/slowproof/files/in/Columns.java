package slowproof.files.in;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.files.in.Table.Row;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;

/** The columns of a table by what they hold; reads cells as numbers in mm, mm/s and the like. */
final class Columns {
    private record Column(int index, Heading heading) {}

    private final Table table;
    private final Problems problems;
    private final Map<String, Column> columns = new HashMap<>();
    private final List<String> taken = new ArrayList<>();

    Columns(Table table, Problems problems) {
        this.table = table;
        this.problems = problems;
    }

    /** Looks for a column; a heading of that name with a unit that is none is noted. */
    Columns optional(String base, Heading.Kind kind) {
        find(base, kind);
        return this;
    }

    /** Looks for a column and notes it as missing when it is not there. */
    Columns required(String base, Heading.Kind kind) {
        if (!find(base, kind)) {
            String wanted =
                    kind == Heading.Kind.TEXT ? base : base + kind.suffixes().split(" ")[0];
            String usual = kind == Heading.Kind.LENGTH ? base + "_mm" : wanted;
            problems.add(
                    ProblemCode.COLUMN_MISSING,
                    new SourcePosition(table.file(), 1, 0, ""),
                    usual,
                    String.join(", ", table.headings()));
        }
        return this;
    }

    private boolean find(String base, Heading.Kind kind) {
        boolean misnamed = false;
        for (int i = 0; i < table.headings().size(); i++) {
            String written = table.headings().get(i);
            Heading heading = Heading.of(written, base, kind);
            if (heading != null) {
                if (columns.putIfAbsent(base, new Column(i, heading)) != null) {
                    problems.add(ProblemCode.COLUMN_TWICE, headingAt(i), written);
                }
                taken.add(written);
            } else if (kind != Heading.Kind.TEXT && Heading.belongs(written, base)) {
                problems.add(ProblemCode.UNKNOWN_UNIT, headingAt(i), written, kind.suffixes());
                taken.add(written);
                misnamed = true;
            }
        }
        return misnamed || columns.containsKey(base);
    }

    private SourcePosition headingAt(int column) {
        return new SourcePosition(table.file(), 1, column + 1, table.headings().get(column));
    }

    /** Returns headings that nothing asked for. */
    List<String> unused() {
        return table.headings().stream()
                .filter(heading -> !taken.contains(heading))
                .toList();
    }

    boolean has(String base) {
        return columns.containsKey(base);
    }

    SourcePosition at(Row row, String base) {
        Column column = columns.get(base);
        return column == null ? new SourcePosition(table.file(), row.line(), 0, base) : table.at(row, column.index());
    }

    /** Returns the text of a cell, empty when column or cell is absent. */
    String text(Row row, String base) {
        Column column = columns.get(base);
        return column == null || column.index() >= row.cells().size()
                ? ""
                : row.cells().get(column.index()).strip();
    }

    /** Returns a number in the unit used inside, or null when the cell is empty or, noted, no number. */
    @Nullable
    Double number(Row row, String base) {
        Column column = columns.get(base);
        String text = text(row, base);
        if (column == null || text.isEmpty()) {
            return null;
        }
        try {
            double value = Numerals.parse(text, table.decimalSign());
            return column.heading().factor() == 0.001
                    ? Double.valueOf(value / 1000)
                    : Double.valueOf(value * column.heading().factor());
        } catch (Numerals.NotFiniteException e) {
            problems.add(ProblemCode.NOT_FINITE, at(row, base), text);
        } catch (NumberFormatException e) {
            boolean otherSign = Numerals.readable(text, table.decimalSign() == '.' ? ',' : '.');
            problems.add(
                    otherSign ? ProblemCode.DECIMAL_COMMA : ProblemCode.NOT_A_NUMBER,
                    at(row, base),
                    text,
                    String.valueOf(table.decimalSign()));
        }
        return null;
    }

    /** Returns a number as {@link #number}, noting an empty cell too. */
    @Nullable
    Double requiredNumber(Row row, String base) {
        if (has(base) && text(row, base).isEmpty()) {
            problems.add(ProblemCode.VALUE_MISSING, at(row, base));
            return null;
        }
        return number(row, base);
    }

    /** Returns a number above zero, or null when the cell is empty or, noted, anything else. */
    @Nullable
    Double positive(Row row, String base) {
        Double value = number(row, base);
        if (value != null && !(value > 0)) {
            problems.add(ProblemCode.NOT_POSITIVE, at(row, base), text(row, base));
            return null;
        }
        return value;
    }

    /** Returns a share in percent, 0 to 100, or null. */
    @Nullable
    Double percent(Row row, String base) {
        Double value = number(row, base);
        if (value != null && !(value >= 0 && value <= 100)) {
            problems.add(ProblemCode.OUT_OF_RANGE, at(row, base), text(row, base), "0 to 100 %");
            return null;
        }
        return value;
    }

    /** Returns the decimals of a cell in mm, 0 to 9; 9 where the unit is no decimal part of mm. */
    int decimals(Row row, String base) {
        Column column = columns.get(base);
        if (column == null) {
            return 0;
        }
        Integer shift = column.heading().decimalShift();
        if (shift == null) {
            return 9;
        }
        return Math.max(0, Math.min(9, Numerals.decimals(text(row, base), table.decimalSign()) + shift));
    }
}
