package slowproof.files.out;

import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.jspecify.annotations.Nullable;

/** Writes tables as sheets of a workbook, numbers as numbers. */
final class SheetXlsx {
    private static final int WIDEST = 60;

    private SheetXlsx() {}

    /** Writes to a stream, which stays open. */
    static void write(List<Sheet> sheets, OutputStream stream) throws IOException {
        Workbook workbook = new Workbook(stream, "slowproof", "1.0");
        for (Sheet sheet : sheets) {
            fill(workbook.newWorksheet(sheet.name()), sheet);
        }
        workbook.finish();
    }

    private static void fill(Worksheet target, Sheet sheet) {
        for (int column = 0; column < sheet.headings().size(); column++) {
            String heading = sheet.headings().get(column);
            target.value(0, column, heading);
            target.style(0, column).bold().set();
            target.width(column, Math.min(WIDEST, heading.length() + 4));
        }
        target.freezePane(0, 1);
        for (int r = 0; r < sheet.rows().size(); r++) {
            List<@Nullable Object> row = sheet.rows().get(r);
            for (int column = 0; column < row.size(); column++) {
                Object cell = row.get(column);
                if (cell instanceof Number number) {
                    target.value(r + 1, column, number);
                } else if (cell != null) {
                    target.value(r + 1, column, printable(Sheet.harmless(cell.toString())));
                }
            }
        }
    }

    /** The format forbids control characters; a file with one would not open. */
    private static String printable(String text) {
        StringBuilder clean = new StringBuilder(text);
        for (int i = 0; i < clean.length(); i++) {
            char c = clean.charAt(i);
            if ((c < ' ' && c != '\t' && c != '\n') || c >= '\ufffe') {
                clean.setCharAt(i, '\ufffd');
            }
        }
        return clean.toString();
    }
}
