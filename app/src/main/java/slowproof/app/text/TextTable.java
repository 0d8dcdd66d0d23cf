package slowproof.app.text;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.report.answer.Block;

/**
 * A table of aligned columns. Text stands left; numbers stand right with their decimal signs below each other.
 * When it is wider than the page, columns that may go are left out, the least wanted first.
 */
final class TextTable {
    private static final String GAP = "  ";

    private final char decimalSign;
    private final List<Column> columns = new ArrayList<>();
    private int rows;

    /** One column; its head has a line break at each bar, and the unit below it. */
    private static final class Column {
        final String[] head;
        final String unit;
        final boolean number;
        /** The higher, the sooner it goes; 0 stays. */
        final int goes;

        final List<String> cells = new ArrayList<>();
        int before;
        int after;
        int width;

        Column(String head, String unit, boolean number, int goes) {
            this.head = head.split("\\|");
            this.unit = unit;
            this.number = number;
            this.goes = goes;
        }
    }

    /** Returns a head in one line. */
    static String plain(String head) {
        return head.replace('|', ' ');
    }

    TextTable(char decimalSign) {
        this.decimalSign = decimalSign;
    }

    TextTable text(String head, int goes) {
        columns.add(new Column(head, "", false, goes));
        return this;
    }

    TextTable number(String head, String unit, int goes) {
        columns.add(new Column(head, unit, true, goes));
        return this;
    }

    /** Adds a row; cells in the order of the columns. */
    void row(String... cells) {
        if (cells.length != columns.size()) {
            throw new IllegalArgumentException(cells.length + " cells for " + columns.size() + " columns");
        }
        for (int i = 0; i < cells.length; i++) {
            columns.get(i).cells.add(cells[i]);
        }
        rows++;
    }

    boolean isEmpty() {
        return rows == 0;
    }

    /** Returns all columns and rows for a document, which has room for them. */
    Block.Table block() {
        List<List<String>> lines = new ArrayList<>();
        for (int row = 0; row < rows; row++) {
            List<String> cells = new ArrayList<>();
            for (Column column : columns) {
                cells.add(column.cells.get(row));
            }
            lines.add(cells);
        }
        List<Block.Column> heads = columns.stream()
                .map(column -> new Block.Column(String.join("|", column.head), column.unit, column.number))
                .toList();
        return new Block.Table(heads, lines);
    }

    /**
     * Returns the lines.
     *
     * @param page columns of the page
     * @param dropped receives the heads of columns that found no room
     */
    List<String> lines(int page, List<String> dropped) {
        List<Column> shown = new ArrayList<>(columns);
        int total = -GAP.length();
        for (Column column : shown) {
            measure(column);
            total += GAP.length() + column.width;
        }
        while (total > page) {
            Column next = leastWanted(shown);
            if (next == null) {
                break;
            }
            shown.remove(next);
            total -= GAP.length() + next.width;
            dropped.add(plain(String.join("|", next.head)));
        }
        List<String> lines = new ArrayList<>();
        int heads = 1;
        boolean units = false;
        for (Column column : shown) {
            heads = Math.max(heads, column.head.length);
            units |= !column.unit.isEmpty();
        }
        for (int line = heads; line >= 1; line--) {
            lines.add(line(shown, -1 - line));
        }
        if (units) {
            lines.add(line(shown, -1));
        }
        for (int row = 0; row < rows; row++) {
            lines.add(line(shown, row));
        }
        return lines;
    }

    private static String head(Column column, int lineFromBelow) {
        int line = column.head.length - 1 - lineFromBelow;
        return line < 0 ? "" : column.head[line];
    }

    private static @Nullable Column leastWanted(List<Column> shown) {
        Column least = null;
        for (Column column : shown) {
            if (column.goes > 0 && (least == null || column.goes > least.goes)) {
                least = column;
            }
        }
        return least;
    }

    private void measure(Column column) {
        column.before = 0;
        column.after = 0;
        int widest = Cells.width(column.unit);
        for (String line : column.head) {
            widest = Math.max(widest, Cells.width(line));
        }
        for (String cell : column.cells) {
            int width = Cells.width(cell);
            if (column.number && isNumber(cell)) {
                int after = after(cell);
                column.after = Math.max(column.after, after);
                column.before = Math.max(column.before, width - after);
            } else {
                widest = Math.max(widest, width);
            }
        }
        column.width = Math.max(widest, column.before + column.after);
    }

    /** Columns from the decimal sign on, the sign included. */
    private int after(String cell) {
        int sign = cell.indexOf(decimalSign);
        return sign < 0 ? 0 : Cells.width(cell.substring(sign));
    }

    private static boolean isNumber(String cell) {
        return !cell.isEmpty() && Character.isDigit(cell.charAt(cell.length() - 1));
    }

    /** Row -1 is the units; -2 the lowest line of the heads, -3 the one above it. */
    private String line(List<Column> shown, int row) {
        StringBuilder line = new StringBuilder();
        for (Column column : shown) {
            String cell = row >= 0 ? column.cells.get(row) : row == -1 ? column.unit : head(column, -2 - row);
            int trailing = column.number && row >= 0 && isNumber(cell) ? column.after - after(cell) : 0;
            int room = column.width - Cells.width(cell) - trailing;
            if (column.number) {
                line.append(Cells.spaces(room)).append(cell).append(Cells.spaces(trailing));
            } else {
                line.append(cell).append(Cells.spaces(room));
            }
            line.append(GAP);
        }
        return line.toString().stripTrailing();
    }
}
