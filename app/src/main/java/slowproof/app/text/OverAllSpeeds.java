package slowproof.app.text;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.curve.Compensation;
import slowproof.trial.curve.CurvePoint;
import slowproof.trial.curve.CurveResult;
import slowproof.trial.curve.ErrorCurve;
import slowproof.trial.curve.ScaleError;
import slowproof.trial.dropout.DropoutLimit;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.FloorSpeed;
import slowproof.trial.findings.Material;
import slowproof.trial.findings.ReasonCode;
import slowproof.trial.note.Quantity;
import slowproof.trial.scatter.Estimate;
import slowproof.wording.DropoutWords;
import slowproof.wording.MaterialAnswer;
import slowproof.wording.MaterialFigures;
import slowproof.wording.Numbers;
import slowproof.wording.Wording;

/** What the passes of one material say together, over all speeds and strokes: a line each. */
final class OverAllSpeeds {
    /** Coverage factor of the uncertainties of curve and scale error. */
    private static final double COVERAGE = 2;

    private static final int SHARE_DIGITS = 3;

    private record Line(String label, String text) {}

    private final Findings findings;
    private final Material material;
    private final Wording wording;
    private final Numbers numbers;
    private final MaterialFigures figures;
    private final List<Line> lines = new ArrayList<>();

    private OverAllSpeeds(Findings findings, Material material, Wording wording) {
        this.findings = findings;
        this.material = material;
        this.wording = wording;
        this.numbers = wording.numbers();
        this.figures = new MaterialFigures(material);
    }

    /** Writes the part on one material. */
    static void write(Findings findings, Material material, Wording wording, Page page) {
        new OverAllSpeeds(findings, material, wording).write(page);
    }

    private void write(Page page) {
        floor();
        curve();
        boolean thin = material.curve() == null;
        if (!thin) {
            scale();
            start();
            scatter();
            compensation();
        }
        dropouts();
        page.heading(wording.text("section.over_all", Wording.shown(material.material())));
        int width =
                lines.stream().mapToInt(line -> Cells.width(line.label())).max().orElse(0);
        lines.forEach(line -> page.labelled(line.label(), width, line.text()));
    }

    private void add(String key, String text) {
        lines.add(new Line(wording.text("over_all." + key), text));
    }

    private void floor() {
        FloorSpeed floor = material.floor();
        Double estimate = floor.estimate();
        Double low = floor.low();
        Double high = floor.high();
        Double judged = findings.judgedAtMm(material.material());
        if (estimate != null && judged != null) {
            double width = (high == null ? estimate : high) - (low == null ? estimate : low);
            String interval = low == null || high == null
                    ? ""
                    : wording.text("speeds.range", number(low, width / 2, false), speed(high, width / 2, false));
            Double proven = floor.proven();
            add(
                    "floor",
                    wording.text(
                            "over_all.floor.found",
                            speed(estimate, width / 2, false),
                            interval,
                            proven == null ? "" : speed(proven, width / 2, true),
                            Quantity.mm((double) Math.round(judged))));
        } else if (floor.status() == FloorSpeed.Status.BRACKET && low != null && high != null) {
            addFloor(wording.text("over_all.floor.bracket", Quantity.mmPerS(low), Quantity.mmPerS(high)));
        } else {
            String status =
                    wording.text("over_all.status." + floor.status().key().replace(' ', '_'));
            addFloor(wording.text("over_all.floor.status", status, Quantity.mmPerS(floor.testedDownTo())));
        }
    }

    /** Where single passes get another answer, it is said that this one is about the mean. */
    private void addFloor(String text) {
        boolean meanOnly = new MaterialAnswer(findings, material, wording).meanDiffers();
        add("floor", meanOnly ? wording.text("over_all.floor.mean", text) : text);
    }

    private void curve() {
        CurveResult result = material.curve();
        ErrorCurve curve = result == null ? null : result.curve();
        if (result == null || curve == null) {
            ReasonCode why = result == null || result.reason() == null
                    ? ReasonCode.THIN_TRIAL
                    : ReasonCode.valueOf(result.reason().name());
            add("curve", wording.text("over_all.curve.none", wording.reason(why)));
            return;
        }
        CurvePoint slow = curve.at(curve.slowestMmPerS());
        CurvePoint fast = curve.at(curve.fastestMmPerS());
        add(
                "curve",
                wording.text(
                        "over_all.curve.ends",
                        error(slow.error(), slow.standardUncertainty()),
                        expanded(slow.standardUncertainty()),
                        Quantity.mmPerS(slow.speedMmPerS()),
                        error(fast.error(), fast.standardUncertainty()),
                        expanded(fast.standardUncertainty()),
                        Quantity.mmPerS(fast.speedMmPerS()),
                        COVERAGE));
    }

    private void scale() {
        ScaleError scale = material.scaleError();
        Double value = scale == null ? null : scale.value();
        Double u = scale == null ? null : scale.standardUncertainty();
        if (value == null || u == null) {
            add("scale", wording.reason(figures.whyNoScaleError()));
            return;
        }
        int decimals = Numbers.decimalsFor(100 * COVERAGE * u) + 2;
        add(
                "scale",
                wording.text(
                        "over_all.scale.found",
                        error(value, u),
                        expanded(u),
                        numbers.fixed(1 / (1 + value), Math.max(4, decimals)),
                        COVERAGE));
    }

    private void start() {
        Estimate start = figures.startLoss();
        add("start", start == null ? figures.whyPartsUnknown(findings, wording) : written(start));
    }

    private String written(Estimate estimate) {
        int decimals = Numbers.decimalsFor((estimate.high() - estimate.low()) / 2);
        String unit = " " + wording.units().smallLength().symbol();
        return wording.text(
                "over_all.estimate",
                numbers.signed(length(estimate.value()), decimals) + unit,
                numbers.signed(length(estimate.low()), decimals),
                numbers.signed(length(estimate.high()), decimals) + unit);
    }

    private void scatter() {
        Double pass = material.passScatterMm();
        if (pass == null) {
            add("scatter", wording.reason(ReasonCode.NO_REPEATS));
            return;
        }
        Estimate start = figures.startScatter();
        Estimate travel = figures.travelScatter();
        if (start != null && travel != null) {
            add(
                    "scatter",
                    wording.text(
                            "over_all.scatter.parts",
                            twoDigits(pass),
                            twoDigits(start.value()),
                            twoDigits(travel.value())));
        } else {
            add(
                    "scatter",
                    wording.text(
                            "over_all.scatter.unsplit", twoDigits(pass), figures.whyPartsUnknown(findings, wording)));
        }
    }

    private void compensation() {
        Compensation compensation = material.compensation();
        if (compensation == null) {
            add("compensation", wording.reason(figures.whyNoCompensation()));
            return;
        }
        Quantity speed = Quantity.mmPerS(compensation.speedMmPerS());
        String found = percent(compensation.asFound());
        Double remaining = compensation.remaining();
        if (compensation.reason() != null || remaining == null) {
            add(
                    "compensation",
                    wording.text(
                            "over_all.compensation.void", speed, found, wording.reason(figures.whyNoCompensation())));
            return;
        }
        Double repeatability = compensation.repeatability();
        add(
                "compensation",
                wording.text(
                        "over_all.compensation.remains",
                        speed,
                        found,
                        repeatability == null ? "" : percent(repeatability),
                        percent(remaining)));
    }

    private void dropouts() {
        DropoutLimit limit = material.dropoutLimit();
        Double share = limit == null ? null : limit.limitPct();
        if (limit == null) {
            add("dropouts", wording.reason(ReasonCode.NO_LIMIT));
        } else if (share == null) {
            add("dropouts", DropoutWords.why(limit, wording));
        } else {
            Double confidence = limit.confidencePct();
            add(
                    "dropouts",
                    wording.text(
                            "over_all.dropouts.limit",
                            numbers.plain(share, SHARE_DIGITS),
                            confidence == null ? "" : numbers.plain(confidence),
                            whole(limit.sensitivity()),
                            whole(limit.falseAlarm())));
        }
    }

    private String whole(@Nullable Double probability) {
        return probability == null ? "\u2013" : numbers.fixed(100 * probability, 0);
    }

    /** A promised speed is rounded up, never down. */
    private String speed(double speedMmPerS, double uncertaintyMmPerS, boolean up) {
        return number(speedMmPerS, uncertaintyMmPerS, up) + " "
                + wording.units().speed().symbol();
    }

    private String number(double speedMmPerS, double uncertaintyMmPerS, boolean up) {
        double value = wording.units().speed().fromMmPerS(speedMmPerS);
        int decimals = Math.max(0, Numbers.decimalsFor(wording.units().speed().fromMmPerS(uncertaintyMmPerS)));
        double step = Math.pow(10, -decimals);
        double shown = up ? Math.ceil(value / step - 1e-9) * step : value;
        return numbers.fixed(shown, decimals);
    }

    private String error(double ratio, double u) {
        return numbers.signed(100 * ratio, Numbers.decimalsFor(100 * COVERAGE * u));
    }

    private String expanded(double u) {
        return numbers.fixed(100 * COVERAGE * u, Numbers.decimalsFor(100 * COVERAGE * u));
    }

    private String percent(double ratio) {
        return numbers.fixed(100 * ratio, Numbers.decimalsFor(100 * ratio));
    }

    private double length(double mm) {
        return wording.units().smallLength().fromMm(mm);
    }

    private String twoDigits(double mm) {
        double value = length(mm);
        return numbers.fixed(value, Numbers.decimalsFor(value)) + " "
                + wording.units().smallLength().symbol();
    }
}
