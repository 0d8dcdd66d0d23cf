package slowproof.app.web;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.SheetReading;
import slowproof.archive.sheet.SheetSeries;
import slowproof.archive.sheet.SheetTrial;
import slowproof.archive.typed.NotUnderstoodException;
import slowproof.archive.typed.Typed;
import slowproof.trial.Series;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Pass;
import slowproof.trial.note.Quantity;
import slowproof.wording.Wording;

/**
 * What the bench sheet shows.
 *
 * @param evaluated the sheet and what it says
 * @param title title of the trial
 * @param now what to do now, empty before the first series
 * @param targetMm where the reference should stand next, as shown in the field, empty when unknown
 * @param rows readings of the running series, the latest first
 * @param last last pass of the running series, or null
 * @param running its condition, or null
 * @param tested conditions of its material, slow first
 * @param strip strip of speeds of its material
 * @param next what to run next
 * @param fields what stands in the fields
 * @param questions what looks like a slip in the reading that was just sent
 * @param token name of the forms, so that sending one twice counts once
 */
public record BenchView(
        Evaluated evaluated,
        String title,
        String now,
        String targetMm,
        List<Row> rows,
        @Nullable Pass last,
        @Nullable Condition running,
        List<Condition> tested,
        Strip strip,
        String next,
        Map<String, String> fields,
        List<String> questions,
        String token) {
    /**
     * One reading.
     *
     * @param reading as typed
     * @param pass the pass that it ended, or null for the first reading
     */
    public record Row(SheetReading reading, @Nullable Pass pass) {}

    /** Copies the collections. */
    public BenchView {
        rows = List.copyOf(rows);
        tested = List.copyOf(tested);
        fields = Map.copyOf(fields);
        questions = List.copyOf(questions);
    }

    static BenchView of(
            Evaluated evaluated, Wording wording, ZoneId zone, Map<String, String> fields, List<String> questions) {
        Optional<SheetSeries> current = evaluated.sheet().current();
        List<Row> rows = current.map(series -> rows(series, evaluated)).orElse(List.of());
        Pass last = rows.stream()
                .map(Row::pass)
                .filter(pass -> pass != null)
                .findFirst()
                .orElse(null);
        String material = evaluated.running().map(Series::material).orElse("");
        List<Condition> tested = evaluated.hasFindings() ? evaluated.said().leading(material) : List.of();
        return new BenchView(
                evaluated,
                TrialPage.title(evaluated.sheet(), wording, zone),
                now(evaluated, wording),
                target(evaluated, new Show(wording, zone)),
                rows,
                last,
                evaluated.runningCondition().orElse(null),
                tested,
                Strip.of(tested),
                Answers.next(evaluated.next(), wording),
                fields,
                questions,
                Visit.random());
    }

    private static List<Row> rows(SheetSeries series, Evaluated evaluated) {
        List<Row> rows = new ArrayList<>();
        for (SheetReading reading : series.readings()) {
            String id = evaluated.meaning().passOf(reading.seq());
            Pass pass = evaluated.passes().stream()
                    .filter(one -> one.id().equals(id))
                    .findFirst()
                    .orElse(null);
            rows.add(new Row(reading, pass));
        }
        Collections.reverse(rows);
        return rows;
    }

    private static String now(Evaluated evaluated, Wording wording) {
        Optional<SheetSeries> current = evaluated.sheet().current();
        if (current.isEmpty()) {
            return "";
        }
        SheetSeries series = current.get();
        int index = nextIndex(evaluated, series);
        try {
            Quantity target = Quantity.mm(SheetTrial.targetMm(series, index));
            Quantity speed = Quantity.mmPerS(series.speed().speedMmPerS());
            String key = index == 0 ? "now.start" : index % 2 == 0 && !series.onward() ? "now.back" : "now.forward";
            return wording.text(key, target, speed);
        } catch (NotUnderstoodException e) {
            return "";
        }
    }

    private static String target(Evaluated evaluated, Show show) {
        Optional<SheetSeries> current = evaluated.sheet().current();
        if (current.isEmpty()) {
            return "";
        }
        try {
            return show.plainLength(SheetTrial.targetMm(current.get(), nextIndex(evaluated, current.get())));
        } catch (NotUnderstoodException e) {
            return "";
        }
    }

    private static int nextIndex(Evaluated evaluated, SheetSeries series) {
        boolean startWanted =
                !evaluated.sheet().facts().zeroed() && series.readings().isEmpty();
        return startWanted ? 0 : series.moves().size() + 1;
    }

    /** Returns what stands in a field. */
    public String text(String field) {
        return fields.getOrDefault(field, "");
    }

    /** Returns what stands in the field for a remark on a reading. */
    public String remark(SheetReading reading) {
        String text = text("remark_" + reading.seq());
        if (!text.isEmpty()) {
            return text;
        }
        return reading.spoiled().isEmpty() ? reading.comment() : reading.spoiled();
    }

    /** Returns true when somebody has begun to type the next series. */
    public boolean seriesBegun() {
        return BenchPage.SERIES_FIELDS.stream().anyMatch(field -> !text(field).isEmpty());
    }

    /** Returns what stands in a field, or what stood there in the running series. */
    public String textOrSame(String field) {
        String text = text(field);
        Optional<SheetSeries> current = evaluated.sheet().current();
        if (!text.isEmpty() || current.isEmpty()) {
            return text;
        }
        SheetSeries series = current.get();
        return switch (field) {
            case "surface" -> series.material();
            case "acceleration" -> series.acceleration().text();
            case "from" -> FactForm.shown(series.from(), habits(), FactName.RESOLUTION);
            case "to" -> FactForm.shown(series.to(), habits(), FactName.RESOLUTION);
            case "start" -> lastReading(series);
            default -> "";
        };
    }

    /** A counter that runs on shows at the start of a series what it showed at the end of the last, back at the start. */
    private String lastReading(SheetSeries series) {
        boolean back = !series.onward() && series.moves().size() % 2 == 0;
        List<SheetReading> readings = series.readings();
        return evaluated.sheet().facts().zeroed() || !back || readings.isEmpty()
                ? ""
                : FactForm.shown(readings.get(readings.size() - 1).reading(), habits(), FactName.RESOLUTION);
    }

    private Typed habits() {
        return evaluated.sheet().facts().habits();
    }

    /** Returns true when moves of the running series go on in one direction. */
    public boolean onward() {
        return text("onward").equals("true")
                || evaluated.sheet().current().map(SheetSeries::onward).orElse(false);
    }

    /** Returns a chosen habit. */
    public String choice(FactName name) {
        return evaluated.sheet().facts().choice(name);
    }
}
