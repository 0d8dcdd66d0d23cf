package slowproof.app.text;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.report.answer.Block;
import slowproof.report.forecast.ForecastCharts;
import slowproof.trial.findings.Answer;
import slowproof.trial.forecast.Contribution;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecast.Change;
import slowproof.trial.forecast.Forecast.Figures;
import slowproof.trial.forecast.Forecast.Remedy;
import slowproof.trial.line.Line;
import slowproof.trial.line.PieceSpec;
import slowproof.trial.note.Note;
import slowproof.wording.LineReply;
import slowproof.wording.Numbers;
import slowproof.wording.Wording;

/** What a written answer says about pieces on a line: the answer for its first page, and the section behind it. */
final class LineSection {
    private final Forecast forecast;
    private final List<Note> notes;
    private final long seed;
    private final Wording wording;
    private final DocumentPage page;

    /**
     * Prepares it.
     *
     * @param forecast forecast
     * @param notes how the line's speed log was read; empty without one
     * @param seed seed of its draws
     * @param wording wording with the sentences of the answer
     * @param page where to
     */
    LineSection(Forecast forecast, List<Note> notes, long seed, Wording wording, DocumentPage page) {
        this.forecast = forecast;
        this.notes = List.copyOf(notes);
        this.seed = seed;
        this.wording = wording;
        this.page = page;
    }

    /** Returns the line's name, or the material's where it has none. */
    static String name(Forecast forecast) {
        String title = forecast.line().title();
        return Wording.shown(title.isEmpty() ? forecast.evidence().material() : title);
    }

    /** Writes what was asked of the line. */
    void question() {
        List<String> questions = new ArrayList<>();
        for (PieceSpec piece : forecast.line().pieces()) {
            String length = LineReply.mm(piece.lengthMm(), wording);
            String tolerance = LineReply.tolerance(piece, wording);
            questions.add(
                    tolerance.isEmpty()
                            ? say("asked.none", name(forecast), length)
                            : say("asked.tolerance", name(forecast), length, tolerance));
        }
        page.labelled(say("asked"), 0, String.join(" ", questions));
    }

    /** Writes the answer in a few sentences. */
    void answer() {
        page.heading(wording.text("forecast.heading.answer"));
        List<String> sentences = LineReply.answer(forecast, wording);
        Figures figures = forecast.figures();
        Answer decision = figures == null ? Answer.UNDECIDED : figures.decision();
        Page.Tone tone = switch (decision) {
            case CONFORMS -> Page.Tone.GOOD;
            case DOES_NOT_CONFORM -> Page.Tone.BAD;
            case UNDECIDED, SCREENING_ONLY -> Page.Tone.OPEN;
        };
        page.bullet(mark(decision), tone, String.join(" ", sentences));
        if (figures != null && !figures.covered()) {
            page.bullet("?", Page.Tone.OPEN, say("not_covered"));
        }
    }

    private static String mark(Answer decision) {
        return decision == Answer.DOES_NOT_CONFORM ? "\u2717" : LineReply.mark(decision);
    }

    /** Writes what the forecast was asked, what it gives, and what it rests on. */
    void section() {
        page.heading(say("heading", name(forecast)));
        asked();
        Figures figures = forecast.figures();
        if (figures == null) {
            LineReply.answer(forecast, wording).forEach(page::paragraph);
            return;
        }
        figures(figures);
        page.term(wording.text("forecast.heading.covered"));
        if (figures.covered()) {
            page.paragraph(wording.text("forecast.covered"));
        } else {
            LineReply.coverage(forecast, wording).forEach(gap -> page.bullet("?", Page.Tone.OPEN, gap));
        }
        page.term(wording.text("forecast.heading.promises"));
        ForecastText.promises(figures.promises(), wording).forEach(page::paragraph);
        changes(figures);
        remedies(figures);
        sources(figures);
        ForecastCharts.of(forecast, seed, wording).values().forEach(chart -> page.add(new Block.Picture(chart)));
    }

    private void asked() {
        Line line = forecast.line();
        row("material", Wording.shown(forecast.evidence().material()));
        List<String> pieces = new ArrayList<>();
        for (PieceSpec piece : line.pieces()) {
            String tolerance = LineReply.tolerance(piece, wording);
            String length = LineReply.mm(piece.lengthMm(), wording);
            pieces.add(tolerance.isEmpty() ? say("piece.no_tolerance", length) : say("piece", length, tolerance));
        }
        row("pieces", String.join("; ", pieces));
        row("cut", say(line.cutsOnSensor() ? "cut.sensor" : "cut.elsewhere"));
        row("cycle", line.log() == null ? LineSteps.of(line.cycle(), wording) : say("cycle.log"));
        if (!notes.isEmpty()) {
            row("log", String.join(" ", notes.stream().map(this::sentence).toList()));
        }
        if (line.triggerJitterS() > 0) {
            row("jitter", plain(line.triggerJitterS()) + " s");
        }
        given("latency", line.triggerLatencyS(), " s");
        given("drift", line.standstillDriftMmPerMin(), " mm/min");
        Double spread = line.unitSpread();
        if (spread != null) {
            row("unit", say("unit", plain(100 * spread) + " %", Wording.shown(line.unitSpreadSource())));
        }
    }

    private String sentence(Note note) {
        String text = wording.note(note);
        return text.endsWith(".") ? text : text + ".";
    }

    private void given(String key, @Nullable Double value, String unit) {
        if (value != null) {
            row(key, plain(value) + unit);
        }
    }

    private void figures(Figures figures) {
        page.term(wording.text("forecast.heading.figures"));
        row(
                "error",
                say(
                        "interval",
                        signed(figures.expectedErrorMm(), figures),
                        signed(figures.meanInterval().low(), figures),
                        signed(figures.meanInterval().high(), figures)));
        row("uncertainty", say("mean_uncertainty", LineReply.uncertain(figures.meanUncertaintyMm(), wording)));
        Double deviation = figures.deviationMm();
        if (deviation != null) {
            row("deviation", signed(deviation, figures));
        }
        row("spread", say("one_sd", LineReply.uncertain(figures.spreadMm(), wording)));
        row(
                "next",
                say(
                        "range",
                        signed(figures.pieceInterval().low(), figures),
                        signed(figures.pieceInterval().high(), figures)));
        List<String> outside = LineReply.outside(forecast, wording);
        if (!outside.isEmpty()) {
            row("outside", String.join(" ", outside));
        }
        row("below_slowest", say("per_piece", LineReply.mm(figures.belowSlowestMm(), wording)));
        Double belowFloor = figures.belowFloorMm();
        row(
                "below_floor",
                belowFloor == null
                        ? wording.text("forecast.reason.no_floor")
                        : say("per_piece", LineReply.mm(belowFloor, wording)));
        row("uncovered", say("per_piece", LineReply.mm(figures.coverage().uncoveredMm(), wording)));
        ForecastText.remarks(forecast, figures, wording, page);
    }

    private void changes(Figures figures) {
        if (figures.changes().isEmpty()) {
            return;
        }
        page.term(wording.text("forecast.heading.changes"));
        TextTable table = new TextTable(wording.numbers().decimalSign())
                .text(say("table.change"), 0)
                .number(say("table.promise"), "", 0)
                .number(say("table.gain"), "", 0);
        table.row(say("table.as_is"), promised(figures.promises().toleranceMm()), "");
        for (Change change : figures.changes()) {
            table.row(
                    wording.text("forecast.change." + change.kind().key()),
                    promised(change.toleranceMm()),
                    change.gainMm() > 0 ? LineReply.mm(change.gainMm(), wording) : say("table.no_gain"));
        }
        page.table(table);
    }

    private void remedies(Figures figures) {
        if (figures.remedies().isEmpty()) {
            return;
        }
        page.term(wording.text("forecast.heading.remedies"));
        TextTable table = new TextTable(wording.numbers().decimalSign())
                .text(say("table.correction"), 0)
                .number(say("table.error"), "", 0)
                .number(say("table.promise"), "", 0);
        for (Remedy remedy : figures.remedies()) {
            table.row(
                    say("remedy." + remedy.kind().key()),
                    signed(remedy.expectedErrorMm(), figures),
                    promised(remedy.toleranceMm()));
        }
        page.table(table);
    }

    private void sources(Figures figures) {
        page.term(wording.text("forecast.heading.sources"));
        TextTable table = new TextTable(wording.numbers().decimalSign())
                .text(say("table.source"), 0)
                .number(say("table.u"), "mm", 0)
                .number(say("table.share"), "%", 0);
        double largest = figures.contributions().stream()
                .mapToDouble(Contribution::standardUncertaintyMm)
                .max()
                .orElse(0);
        int decimals = Numbers.decimalsFor(largest);
        for (Contribution part : figures.contributions()) {
            table.row(
                    wording.text("forecast.source." + part.source().key()),
                    wording.numbers().fixed(part.standardUncertaintyMm(), decimals),
                    wording.numbers().fixed(100 * part.share(), 1));
        }
        page.table(table);
    }

    private String promised(double toleranceMm) {
        return "\u00b1" + LineReply.mm(toleranceMm, wording);
    }

    private String signed(double valueMm, Figures figures) {
        return LineReply.signed(valueMm, figures, wording);
    }

    private String plain(double value) {
        return wording.numbers().plain(value);
    }

    private void row(String key, String text) {
        page.labelled(say("row." + key), 0, text);
    }

    private String say(String key, Object... arguments) {
        return wording.text("written.line." + key, arguments);
    }
}
