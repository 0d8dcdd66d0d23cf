package slowproof.report.findings;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.report.chart.Stroke;
import slowproof.report.chart.Symbol;
import slowproof.report.chart.Tone;
import slowproof.trial.Limit;
import slowproof.trial.dropout.DropoutLimit;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Material;
import slowproof.trial.findings.Pass;
import slowproof.trial.note.Quantity;
import slowproof.wording.Wording;

/** Error against dropout share of one material, with the share up to which a pass can be trusted. */
final class DropoutChart {
    private DropoutChart() {}

    /** Returns null when no pass carries a share. */
    static @Nullable Chart of(Findings findings, Material material, Wording wording) {
        List<Place> good = new ArrayList<>();
        List<Place> bad = new ArrayList<>();
        Spans shares = new Spans();
        Spans errors = new Spans().with(0);
        Limit limit = findings.trial().limit();
        for (Pass pass : findings.passesOf(material.material())) {
            Double share = pass.dropoutPercent();
            if (share == null || !pass.included()) {
                continue;
            }
            double error = 100 * pass.error();
            boolean outside = limit != null && Math.abs(pass.error()) > limit.permissibleRatio(pass.lengthMm()) + 1e-12;
            (outside ? bad : good).add(Place.of(share, error));
            shares.with(share);
            errors.with(error);
        }
        if (good.isEmpty() && bad.isEmpty()) {
            return null;
        }
        List<Layer> layers = new ArrayList<>();
        DropoutLimit dropout = material.dropoutLimit();
        Double limitPct = dropout == null ? null : dropout.limitPct();
        if (dropout != null && limitPct != null) {
            Double above = dropout.gapHighPct();
            if (dropout.status() == DropoutLimit.Status.FOUND_SEPARATED && above != null) {
                layers.add(new Layer.Region(
                        wording.text("plot.dropout_gap", Quantity.percent(limitPct), Quantity.percent(above)),
                        Tone.OPEN,
                        limitPct,
                        above));
            }
            layers.add(Layer.Guide.at(
                    wording.text("plot.dropout_limit", Quantity.percent(limitPct)),
                    Tone.OPEN,
                    Stroke.SOLID,
                    true,
                    limitPct));
        }
        if (!good.isEmpty()) {
            layers.add(new Layer.Points(wording.text("plot.good"), Tone.GOOD, Symbol.RING, good));
        }
        if (!bad.isEmpty()) {
            layers.add(new Layer.Points(wording.text("plot.bad"), Tone.BAD, Symbol.CROSS, bad));
        }
        String said = limitPct == null
                ? wording.text("plot.dropout.none")
                : wording.text("plot.dropout.found", Quantity.percent(limitPct));
        return new Chart(
                wording.text("plot.error_dropout", Wording.shown(material.material())),
                wording.text("plot.error_dropout.described", said),
                shares.fromZero(wording.text("plot.axis.dropout")),
                errors.linear(wording.text("plot.axis.error")),
                wording.numbers().decimalSign(),
                layers);
    }
}
