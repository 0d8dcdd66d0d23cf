package slowproof.app.text;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.IndicatedSpeed;
import slowproof.trial.IndicatedSpeed.Ripple;
import slowproof.trial.findings.Condition;
import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;
import slowproof.wording.Numbers;
import slowproof.wording.Wording;

/** What the sensor showed of the speed of one material's conditions: error, ripple, and how much of it is counting. */
final class SpeedTable {
    private final Wording wording;
    private final Numbers numbers;
    private final TextTable table;
    private final KeyColumns columns;

    private SpeedTable(KeyColumns columns) {
        this.wording = columns.wording();
        this.numbers = wording.numbers();
        this.columns = columns;
        table = columns.table()
                .number(head("speed_error"), "%", 0)
                .number(head("standard_uncertainty"), "%", 0)
                .number(head("speed_ripple"), "%", 0)
                .number(head("counting"), "%", 0);
    }

    /** Returns true when some condition carries more of the speed than its error. */
    static boolean has(List<Condition> rows) {
        return rows.stream().anyMatch(row -> ripple(row) != null);
    }

    /**
     * Writes the part.
     *
     * @param title material, and what all rows have in common
     * @param rows the conditions
     * @param columns columns that say what a row is about
     */
    static void write(String title, List<Condition> rows, KeyColumns columns, Page page) {
        SpeedTable own = new SpeedTable(columns);
        Wording wording = columns.wording();
        double averagingS = 0;
        for (Condition row : rows) {
            Ripple ripple = ripple(row);
            averagingS = ripple == null ? averagingS : ripple.averagingS();
            own.add(row, ripple);
        }
        page.heading(wording.text("section.indicated_speed", title));
        page.table(own.table);
        page.paragraph(wording.text("indicated_speed.says", new Quantity(averagingS, Unit.S)));
    }

    private static @Nullable Ripple ripple(Condition row) {
        IndicatedSpeed speed = row.speed();
        return speed == null ? null : speed.ripple();
    }

    private void add(Condition row, @Nullable Ripple ripple) {
        IndicatedSpeed speed = row.speed();
        Double uncertainty = speed == null ? null : speed.standardUncertainty();
        int decimals = uncertainty == null ? 0 : Numbers.decimalsFor(100 * uncertainty);
        List<String> cells = columns.cells(row);
        cells.add(error(speed, uncertainty, decimals));
        cells.add(uncertainty == null ? notAvailable() : numbers.fixed(100 * uncertainty, decimals));
        cells.add(ripple == null ? notAvailable() : rounded(100 * ripple.standardDeviation()));
        cells.add(ripple == null ? notAvailable() : numbers.fixed(100 * ripple.countingShare(), 0));
        table.row(cells.toArray(new String[0]));
    }

    private String error(@Nullable IndicatedSpeed speed, @Nullable Double uncertainty, int decimals) {
        if (speed == null) {
            return notAvailable();
        }
        double percent = 100 * speed.error();
        return uncertainty == null ? numbers.plain(percent, 3) : numbers.signed(percent, decimals);
    }

    private String rounded(double percent) {
        return percent == 0 ? "0" : numbers.fixed(percent, Numbers.decimalsFor(percent));
    }

    private String head(String key) {
        return wording.text("head." + key);
    }

    private String notAvailable() {
        return wording.text("table.not_available");
    }
}
