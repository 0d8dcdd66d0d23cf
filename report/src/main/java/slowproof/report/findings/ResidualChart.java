package slowproof.report.findings;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.report.chart.Symbol;
import slowproof.report.chart.Tone;
import slowproof.trial.findings.Direction;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Material;
import slowproof.trial.findings.Pass;
import slowproof.trial.note.Quantity;
import slowproof.wording.Wording;

/**
 * Deviations of the passes of one material from the mean of their series and direction, in the order in which they
 * were driven. Passes to and fro share readings, passes of one direction do not.
 */
final class ResidualChart {
    private ResidualChart() {}

    /** Returns null when no series has two passes of one direction. */
    static @Nullable Chart of(Findings findings, Material material, Wording wording) {
        List<Pass> passes = findings.passesOf(material.material());
        Map<String, double[]> sums = new HashMap<>();
        for (Pass pass : passes) {
            if (pass.included()) {
                double[] sum = sums.computeIfAbsent(group(pass), name -> new double[2]);
                sum[0] += pass.errorMm();
                sum[1]++;
            }
        }
        Map<Direction, List<Place>> places = new HashMap<>();
        List<Place> flagged = new ArrayList<>();
        Spans deviations = new Spans().with(0);
        double largest = 0;
        int shown = 0;
        for (int i = 0; i < passes.size(); i++) {
            Pass pass = passes.get(i);
            double[] sum = sums.get(group(pass));
            if (!pass.included() || sum == null || sum[1] < 2) {
                continue;
            }
            double deviationMm = pass.errorMm() - sum[0] / sum[1];
            largest = Math.max(largest, Math.abs(deviationMm));
            shown++;
            Place place = Place.of(i + 1, wording.units().smallLength().fromMm(deviationMm));
            deviations.with(place.y());
            places.computeIfAbsent(pass.direction(), direction -> new ArrayList<>())
                    .add(place);
            if (!pass.flags().isEmpty()) {
                flagged.add(place);
            }
        }
        if (shown == 0) {
            return null;
        }
        List<Layer> layers = new ArrayList<>();
        add(layers, wording.text("plot.forward"), Tone.ACCENT, Symbol.DISC, places.get(Direction.FORWARD));
        add(layers, wording.text("plot.return"), Tone.INK, Symbol.RING, places.get(Direction.RETURN));
        add(layers, wording.text("plot.flagged"), Tone.BAD, Symbol.DIAMOND, flagged);
        return new Chart(
                wording.text("plot.residuals", Wording.shown(material.material())),
                wording.text("plot.residuals.described", shown, Quantity.mm(rounded(largest))),
                new Spans().with(1, passes.size()).fromZero(wording.text("plot.axis.order")),
                deviations.linear(wording.text(
                        "plot.axis.deviation", wording.units().smallLength().symbol())),
                wording.numbers().decimalSign(),
                layers);
    }

    private static void add(List<Layer> layers, String name, Tone tone, Symbol symbol, @Nullable List<Place> places) {
        if (places != null && !places.isEmpty()) {
            layers.add(new Layer.Points(name, tone, symbol, places));
        }
    }

    private static String group(Pass pass) {
        return pass.series()
                + '\n'
                + pass.setup()
                + '\n'
                + pass.speedMmPerS()
                + '\n'
                + pass.direction().key();
    }

    private static double rounded(double mm) {
        return Math.round(mm * 1e4) / 1e4;
    }
}
