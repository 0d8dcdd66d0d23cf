package slowproof.report.forecast;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.report.chart.Axis;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Tone;
import slowproof.trial.forecast.Contribution;
import slowproof.wording.LineReply;
import slowproof.wording.Wording;

/** What makes the variance of a piece: a bar for each source, largest first; what all pieces share is hatched. */
final class SourcesChart {
    private static final double ABOVE = 1.05;

    private SourcesChart() {}

    /** Returns the chart, or null without a source. */
    static @Nullable Chart of(List<Contribution> parts, Wording wording) {
        if (parts.isEmpty()) {
            return null;
        }
        List<Layer.Bar> shared = new ArrayList<>();
        List<Layer.Bar> own = new ArrayList<>();
        for (int row = 0; row < parts.size(); row++) {
            Contribution part = parts.get(row);
            String label = wording.text("forecast.source." + part.source().key()) + ": "
                    + LineReply.uncertain(part.standardUncertaintyMm(), wording);
            (part.source().shared() ? shared : own).add(new Layer.Bar(row, part.standardUncertaintyMm(), label));
        }
        List<Layer> layers = new ArrayList<>();
        if (!shared.isEmpty()) {
            layers.add(new Layer.Bars(wording.text("plot.line.shared"), Tone.SECOND, true, shared));
        }
        if (!own.isEmpty()) {
            layers.add(new Layer.Bars(wording.text("plot.line.own"), Tone.ACCENT, false, own));
        }
        return new Chart(
                wording.text("forecast.heading.sources"),
                wording.text(
                        "plot.line.said.sources",
                        wording.text("forecast.source." + parts.get(0).source().key()),
                        wording.numbers().fixed(100 * parts.get(0).share(), 0) + " %"),
                Axis.linear(
                        wording.text("plot.line.axis.uncertainty"),
                        0,
                        ABOVE * parts.get(0).standardUncertaintyMm()),
                Axis.rows(parts.size()),
                wording.numbers().decimalSign(),
                layers);
    }
}
