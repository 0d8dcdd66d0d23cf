package slowproof.wording;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import slowproof.metrology.Interval;
import slowproof.trial.findings.Answer;
import slowproof.trial.forecast.Coverage;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecast.Figures;
import slowproof.trial.line.PieceSpec;
import slowproof.trial.note.Quantity;

/** What a forecast says in sentences: the answer, what it rests on, and what is not covered. */
public final class LineReply {
    /** Below this share, in ppm, the answer rests on the far tails of a normal distribution. */
    private static final double NORMAL_TAIL_PPM = 1000;
    /** Smaller shares are not told apart. */
    private static final double LEAST_PPM = 0.001;

    private LineReply() {}

    /** Returns the sentences to paste into a mail. */
    public static String of(Forecast forecast, Wording wording) {
        return String.join(" ", sentences(forecast, wording));
    }

    /** Returns the same one by one: the answer, what is not covered, and for what it is valid. */
    public static List<String> sentences(Forecast forecast, Wording wording) {
        List<String> sentences = new ArrayList<>(answer(forecast, wording));
        sentences.addAll(coverage(forecast, wording));
        sentences.add(wording.text("validity.reply"));
        return List.copyOf(sentences);
    }

    /** Returns one thing that the trial does not cover, with the pass to add. */
    public static String gap(Coverage.Gap gap, Wording wording) {
        return wording.text(
                "forecast.gap." + gap.lack().key(),
                wording.numbers().plain(gap.amount(), 3),
                wording.numbers().plain(gap.add(), 3));
    }

    /** Returns the answer in two or three sentences. */
    public static List<String> answer(Forecast forecast, Wording wording) {
        Figures figures = forecast.figures();
        if (figures == null) {
            return List.of(wording.text("forecast.refused.no_repeats"));
        }
        List<String> sentences = new ArrayList<>();
        String subject = forecast.line().title().isEmpty()
                ? forecast.evidence().material()
                : forecast.line().title();
        sentences.add(wording.text(
                "forecast.answer." + figures.decision().key().replace(' ', '_'),
                subject,
                tolerance(forecast, wording)));
        sentences.add(wording.text(
                "forecast.answer.promise",
                "\u00b1" + mm(figures.promises().toleranceMm(), wording),
                wording.numbers().plain(100 * forecast.line().coverage(), 4) + " %",
                wording.numbers().plain(100 * forecast.line().confidence(), 4) + " %"));
        sentences.add(wording.text(
                "forecast.answer.error",
                mm(forecast.line().pieces().get(0).lengthMm(), wording),
                signed(figures.expectedErrorMm(), figures, wording),
                signed(figures.meanInterval().low(), figures, wording),
                signed(figures.meanInterval().high(), figures, wording),
                uncertain(figures.spreadMm(), wording)));
        return sentences;
    }

    /** Returns what the trial does not cover, each with the pass to add. */
    public static List<String> coverage(Forecast forecast, Wording wording) {
        Figures figures = forecast.figures();
        if (figures == null || figures.covered()) {
            return List.of();
        }
        List<String> sentences = new ArrayList<>();
        for (Coverage.Gap gap : figures.coverage().gaps()) {
            sentences.add(gap(gap, wording));
        }
        if (figures.coverage().lossMm() + figures.coverage().gainMm() > 0) {
            sentences.add(wording.text(
                    "forecast.bound",
                    mm(figures.coverage().lossMm(), wording),
                    mm(figures.coverage().gainMm(), wording)));
        }
        return sentences;
    }

    /** Returns how sure the tolerance is kept; empty without a tolerance. */
    public static List<String> outside(Forecast forecast, Wording wording) {
        Figures figures = forecast.figures();
        if (figures == null) {
            return List.of();
        }
        Double outside = figures.outside();
        Interval interval = figures.outsideInterval();
        if (outside == null || interval == null) {
            return List.of();
        }
        List<String> sentences = new ArrayList<>();
        if (1e6 * Math.max(outside, interval.high()) < LEAST_PPM) {
            sentences.add(wording.text(
                    "forecast.answer.outside.none", wording.numbers().plain(LEAST_PPM, 1)));
        } else {
            sentences.add(wording.text(
                    "forecast.answer.outside",
                    ppm(outside, wording),
                    ppm(interval.low(), wording),
                    ppm(interval.high(), wording)));
        }
        if (1e6 * outside < NORMAL_TAIL_PPM) {
            sentences.add(wording.text("forecast.answer.normal"));
        }
        return sentences;
    }

    private static String ppm(double share, Wording wording) {
        double ppm = 1e6 * share;
        return ppm < LEAST_PPM
                ? "< " + wording.numbers().plain(LEAST_PPM, 1)
                : wording.numbers().plain(ppm, 2);
    }

    /** Returns a length with two significant digits or so and its unit. */
    public static String mm(double value, Wording wording) {
        return wording.quantity(Quantity.mm(rounded(value)));
    }

    /** Returns an uncertainty or a standard deviation with two significant digits and its unit. */
    public static String uncertain(double value, Wording wording) {
        return wording.numbers().fixed(value, Numbers.decimalsFor(value)) + " mm";
    }

    private static double rounded(double value) {
        return Double.parseDouble(String.format(Locale.ROOT, Math.abs(value) < 100 ? "%.3g" : "%.5g", value));
    }

    /** Returns a signed length rounded to the place of what is not known of it. */
    public static String signed(double value, Figures figures, Wording wording) {
        double u = Math.max(figures.meanUncertaintyMm(), 1e-4);
        return wording.numbers().signed(value, Numbers.decimalsFor(u)) + " mm";
    }

    /** Returns the tolerance of the first piece as words, empty without one. */
    public static String tolerance(Forecast forecast, Wording wording) {
        return tolerance(forecast.line().pieces().get(0), wording);
    }

    /** Returns the tolerance of a piece as words, empty without one. */
    public static String tolerance(PieceSpec piece, Wording wording) {
        Double lower = piece.lowerMm();
        Double upper = piece.upperMm();
        if (lower == null || upper == null) {
            return "";
        }
        return -lower == upper
                ? "\u00b1" + mm(upper, wording)
                : wording.numbers().plain(lower) + " / +" + mm(upper, wording);
    }

    /** Returns whether the answer is good, bad or open, as a mark that needs no colour. */
    public static String mark(Answer answer) {
        return switch (answer) {
            case CONFORMS -> "+";
            case DOES_NOT_CONFORM -> "-";
            case UNDECIDED, SCREENING_ONLY -> "?";
        };
    }
}
