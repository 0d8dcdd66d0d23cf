package slowproof.app.text;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.findings.Condition;
import slowproof.wording.Figures;
import slowproof.wording.Wording;

/**
 * The first columns of a table of conditions, which say what each row is about.
 *
 * @param wording language and units
 * @param setups true for a column with the set-up
 * @param accelerations true for a column with the acceleration
 */
record KeyColumns(Wording wording, boolean setups, boolean accelerations) {
    /** Returns a table that begins with these columns. */
    TextTable table() {
        TextTable table = new TextTable(wording.numbers().decimalSign())
                .number(head("speed"), wording.units().speed().symbol(), 0);
        if (setups) {
            table.text(head("setup"), 0);
        }
        if (accelerations) {
            table.number(head("acceleration"), "mm/s\u00b2", 0);
        }
        return table.text(head("direction"), 0);
    }

    /** Returns the cells of a row in these columns; more can be added. */
    List<String> cells(Condition row) {
        List<String> cells = new ArrayList<>();
        cells.add(new Figures(row, wording).speed());
        if (setups) {
            cells.add(Wording.shown(row.key().setup()));
        }
        if (accelerations) {
            Double acceleration = row.key().accelerationMmPerS2();
            cells.add(acceleration == null ? "" : wording.numbers().plain(acceleration));
        }
        cells.add(wording.direction(row.direction()));
        return cells;
    }

    private String head(String key) {
        return wording.text("head." + key);
    }
}
