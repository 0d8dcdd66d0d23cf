package slowproof.files.out;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A table for spreadsheets: headings with units, cells that are numbers, texts or empty.
 *
 * @param name name of the sheet
 * @param headings headings, units included
 * @param rows rows, each as wide as the headings; a cell is a Double, an Integer, a String or null
 */
record Sheet(String name, List<String> headings, List<List<@Nullable Object>> rows) {
    /** Collects the rows of a sheet. */
    static final class Builder {
        private final String name;
        private final List<String> headings;
        private final List<List<@Nullable Object>> rows = new ArrayList<>();

        Builder(String name, String... headings) {
            this.name = name;
            this.headings = List.of(headings);
        }

        Builder row(@Nullable Object... cells) {
            if (cells.length != headings.size()) {
                throw new IllegalArgumentException(
                        "sheet " + name + " has " + headings.size() + " columns, the row " + cells.length);
            }
            List<@Nullable Object> row = new ArrayList<>();
            Collections.addAll(row, cells);
            rows.add(Collections.unmodifiableList(row));
            return this;
        }

        Sheet build() {
            return new Sheet(name, headings, List.copyOf(rows));
        }
    }

    /**
     * Returns a text that no spreadsheet takes for a formula: one that begins like a formula gets an apostrophe before
     * it.
     */
    static String harmless(String text) {
        if (text.isEmpty()) {
            return text;
        }
        return "=+-@\t\r\n".indexOf(text.charAt(0)) < 0 ? text : "'" + text;
    }
}
