package slowproof.app.text;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.IndicatedSpeed;
import slowproof.trial.IndicatedSpeed.Ripple;
import slowproof.trial.findings.Condition;
import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;
import slowproof.wording.Figures;
import slowproof.wording.Numbers;
import slowproof.wording.Wording;

/** What the sensor showed of the speed of one material's conditions: error, ripple, and how much of it is counting. */
final class SpeedTable {
    private final Wording wording;
    private final Numbers numbers;
    private final TextTable table;
    private final boolean setups;
    private final boolean accelerations;

    private SpeedTable(Wording wording, boolean setups, boolean accelerations) {
        this.wording = wording;
        this.numbers = wording.numbers();
        this.setups = setups;
        this.accelerations = accelerations;
        table = new TextTable(numbers.decimalSign())
                .number(head("speed"), wording.units().speed().symbol(), 0);
        if (setups) {
            table.text(head("setup"), 0);
        }
        if (accelerations) {
            table.number(head("acceleration"), "mm/s\u00b2", 0);
        }
        table.text(head("direction"), 0)
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
     * @param setups true for a column with the set-up
     * @param accelerations true for a column with the acceleration
     */
    static void write(
            String title, List<Condition> rows, boolean setups, boolean accelerations, Wording wording, Page page) {
        SpeedTable own = new SpeedTable(wording, setups, accelerations);
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
        List<String> cells = new ArrayList<>();
        cells.add(new Figures(row, wording).speed());
        if (setups) {
            cells.add(Wording.shown(row.key().setup()));
        }
        if (accelerations) {
            Double acceleration = row.key().accelerationMmPerS2();
            cells.add(acceleration == null ? "" : numbers.plain(acceleration));
        }
        cells.add(wording.direction(row.direction()));
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
