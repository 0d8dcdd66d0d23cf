package slowproof.app.text;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.forecast.Contribution;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecast.Change;
import slowproof.trial.forecast.Forecast.Figures;
import slowproof.trial.forecast.Forecast.Remedy;
import slowproof.trial.forecast.Promises;
import slowproof.trial.note.Quantity;
import slowproof.wording.LineReply;
import slowproof.wording.Wording;

/** A forecast as a person reads it: the answer first, then what it rests on. */
public final class ForecastText {
    private ForecastText() {}

    /**
     * Returns the page.
     *
     * @param forecast forecast
     * @param wording language and units
     * @param colour true to colour headings
     * @param width columns of the page
     */
    public static String render(Forecast forecast, Wording wording, boolean colour, int width) {
        Page page = new TextPage(wording, colour, width);
        page.title(Wording.shown(forecast.line().title()));
        write(forecast, wording, page);
        page.heading(wording.text("section.cautions"));
        for (String caution : new String[] {"machine", "light", "validity", "rules"}) {
            page.bullet("!", Page.Tone.PLAIN, wording.text("caution." + caution));
        }
        return page.toString();
    }

    /** Writes the answer for the line and its figures. */
    static void write(Forecast forecast, Wording wording, Page page) {
        page.heading(wording.text("forecast.heading.answer"));
        LineReply.answer(forecast, wording).forEach(page::paragraph);
        Figures figures = forecast.figures();
        if (figures != null) {
            figures(forecast, figures, wording, page);
        }
    }

    private static void figures(Forecast forecast, Figures figures, Wording wording, Page page) {
        page.heading(wording.text("forecast.heading.figures"));
        basis(forecast, figures, wording).forEach(page::paragraph);
        page.paragraph(sampled(figures, wording));
        page.heading(wording.text("forecast.heading.covered"));
        if (figures.covered()) {
            page.paragraph(wording.text("forecast.covered"));
        } else {
            LineReply.coverage(forecast, wording).forEach(s -> page.bullet("?", Page.Tone.OPEN, s));
        }
        page.heading(wording.text("forecast.heading.promises"));
        promises(figures.promises(), wording).forEach(page::paragraph);
        page.heading(wording.text("forecast.heading.changes"));
        for (Change change : figures.changes()) {
            page.bullet("-", Page.Tone.PLAIN, change(change, wording));
        }
        page.heading(wording.text("forecast.heading.remedies"));
        for (Remedy remedy : figures.remedies()) {
            page.bullet("-", Page.Tone.PLAIN, remedy(remedy, figures, wording));
        }
        page.heading(wording.text("forecast.heading.sources"));
        for (Contribution part : figures.contributions()) {
            page.bullet(
                    "-",
                    Page.Tone.PLAIN,
                    wording.text(
                            "forecast.row.source",
                            wording.text("forecast.source." + part.source().key()),
                            LineReply.mm(part.standardUncertaintyMm(), wording),
                            wording.numbers().fixed(100 * part.share(), 1) + " %"));
        }
    }

    /** Returns deviation and share outside, and what was taken for the figures, a sentence each. */
    public static List<String> basis(Forecast forecast, Figures figures, Wording wording) {
        List<String> sentences = new ArrayList<>();
        Double deviation = figures.deviationMm();
        if (deviation != null) {
            sentences.add(wording.text("forecast.answer.deviation", LineReply.signed(deviation, figures, wording)));
        }
        sentences.addAll(LineReply.outside(forecast, wording));
        sentences.addAll(taken(forecast, figures, wording));
        return sentences;
    }

    /** Writes how the figures were found and what was taken for them. */
    static void remarks(Forecast forecast, Figures figures, Wording wording, Page page) {
        taken(forecast, figures, wording).forEach(page::paragraph);
        page.paragraph(sampled(figures, wording));
    }

    private static List<String> taken(Forecast forecast, Figures figures, Wording wording) {
        List<String> sentences = new ArrayList<>();
        if (!forecast.evidence().hasCurve()) {
            sentences.add(wording.text("forecast.thin"));
        }
        if (figures.worseScatter()) {
            sentences.add(wording.text("forecast.worse_scatter"));
        }
        return sentences;
    }

    private static String sampled(Figures figures, Wording wording) {
        return wording.text(
                "forecast.montecarlo",
                figures.monteCarlo().pieces(),
                String.valueOf(figures.monteCarlo().seed()),
                LineReply.signed(figures.monteCarlo().expectedErrorMm(), figures, wording),
                LineReply.signed(figures.monteCarlo().pieceInterval().low(), figures, wording),
                LineReply.signed(figures.monteCarlo().pieceInterval().high(), figures, wording));
    }

    /** Returns what one change buys, in a line. */
    public static String change(Change change, Wording wording) {
        String name = wording.text("forecast.change." + change.kind().key());
        String promise = "\u00b1" + LineReply.mm(change.toleranceMm(), wording);
        return change.gainMm() > 0
                ? wording.text("forecast.row.change", name, promise, LineReply.mm(change.gainMm(), wording))
                : wording.text("forecast.row.change.harms", name, promise);
    }

    private static String remedy(Remedy remedy, Figures figures, Wording wording) {
        return wording.text(
                "forecast.remedy." + remedy.kind().key(),
                LineReply.signed(remedy.expectedErrorMm(), figures, wording),
                "\u00b1" + LineReply.mm(remedy.toleranceMm(), wording));
    }

    /** Returns what would still hold the tolerance: creep, acceleration, stops, standstill, a sentence each. */
    public static List<String> promises(Promises promises, Wording wording) {
        Double creep = promises.slowestCreepMmPerS();
        Double acceleration = promises.smallestAccelerationMmPerS2();
        Integer stops = promises.mostStops();
        Double rest = promises.longestStandstillS();
        return List.of(
                creep == null
                        ? none("creep", promises.creepReason(), wording)
                        : wording.text("forecast.promise.creep", wording.quantity(Quantity.mmPerS(up(creep)))),
                acceleration == null
                        ? none("acceleration", promises.accelerationReason(), wording)
                        : wording.text(
                                "forecast.promise.acceleration",
                                wording.numbers().plain(up(acceleration), 3)),
                stops == null
                        ? none("stops", promises.stopsReason(), wording)
                        : wording.text("forecast.promise.stops", stops),
                rest == null
                        ? none("standstill", promises.standstillReason(), wording)
                        : wording.text(
                                "forecast.promise.standstill", wording.numbers().plain(rest, 3)));
    }

    /** A promise is rounded to the safe side. */
    private static double up(double value) {
        double place = Math.pow(10, Math.floor(Math.log10(value)) - 1);
        return Math.ceil(value / place - 1e-9) * place;
    }

    private static String none(String what, Promises.@Nullable Reason reason, Wording wording) {
        String key = reason == null ? Promises.Reason.NO_TOLERANCE.key() : reason.key();
        return wording.text("forecast.promise." + what + ".none", wording.text("forecast.none." + key));
    }
}
