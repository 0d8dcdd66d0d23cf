package slowproof.report.recording;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import slowproof.report.chart.Axis;
import slowproof.report.chart.Chart;
import slowproof.report.chart.Layer;
import slowproof.report.chart.Place;
import slowproof.report.chart.Stroke;
import slowproof.report.chart.Symbol;
import slowproof.report.chart.Tone;
import slowproof.trial.RecordedPass;
import slowproof.trial.findings.Flag;
import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.PeakLine;
import slowproof.trial.recording.SpeedTrace;
import slowproof.wording.Wording;

/**
 * Speed against time of one recording: passes shaded, places without rows hatched, dropouts marked along the lower
 * edge, and what is doubtful about a pass along the upper edge, a row and a shape for each kind of doubt.
 */
public final class RecordingChart {
    private static final double ROOM = 0.06;

    private final SpeedTrace trace;
    private final List<RecordedPass> passes;
    private final List<Break> breaks;
    private final Wording wording;
    private final List<Layer> layers = new ArrayList<>();
    private double low;
    private double high;

    private RecordingChart(SpeedTrace trace, List<RecordedPass> passes, List<Break> breaks, Wording wording) {
        this.trace = trace;
        this.passes = passes;
        this.breaks = breaks;
        this.wording = wording;
    }

    /**
     * Returns the picture.
     *
     * @param name name of the recording
     * @param trace its speeds
     * @param passes the passes found in it
     * @param breaks places where rows do not follow on one another
     * @param wording language and units
     */
    public static Chart of(
            String name, SpeedTrace trace, List<RecordedPass> passes, List<Break> breaks, Wording wording) {
        return new RecordingChart(trace, passes, breaks, wording).chart(name);
    }

    private Chart chart(String name) {
        List<Place> indicated = places(trace.indicatedMmPerS());
        List<Place> reference = places(trace.referenceMmPerS());
        double span = high > low ? high - low : 1;
        shadePasses();
        hatchBreaks();
        if (!indicated.isEmpty()) {
            layers.add(new Layer.Line(wording.text("plot.rec.indicated"), Tone.ACCENT, Stroke.SOLID, indicated));
        }
        if (!reference.isEmpty()) {
            layers.add(new Layer.Line(wording.text("plot.rec.reference"), Tone.INK, Stroke.DOTTED, reference));
        }
        int lost = markDropouts(low - ROOM * span);
        int lanes = markDoubts(high, ROOM * span);
        return new Chart(
                wording.text("plot.rec", Wording.shown(name)),
                wording.text(
                        "plot.rec.described",
                        passes.size(),
                        speed(Math.max(high, -low)),
                        unlessZero(lost),
                        unlessZero(doubtful()),
                        unlessZero(breaks.size())),
                Axis.linear(wording.text("plot.rec.time"), trace.fromS(), trace.toS()),
                Axis.linear(
                        wording.text(
                                "plot.rec.speed",
                                wording.units().speed().symbol(),
                                new Quantity(trace.gateS(), Unit.S)),
                        low - 2 * ROOM * span,
                        high + (lanes + 1) * ROOM * span),
                wording.numbers().decimalSign(),
                layers);
    }

    private Quantity speed(double inUnit) {
        return Quantity.mmPerS(inUnit / wording.units().speed().fromMmPerS(1));
    }

    private List<Place> places(PeakLine line) {
        List<Place> places = new ArrayList<>();
        for (int i = 0; i < line.size(); i++) {
            double speed = wording.units().speed().fromMmPerS(line.value().at(i));
            places.add(Place.of(line.timeS().at(i), speed));
            if (!Double.isNaN(speed)) {
                low = Math.min(low, speed);
                high = Math.max(high, speed);
            }
        }
        return places;
    }

    private void shadePasses() {
        String legend = wording.text("plot.rec.pass");
        for (RecordedPass pass : passes) {
            layers.add(new Layer.Region(legend, Tone.ACCENT, pass.startS(), pass.endS()));
            legend = "";
        }
    }

    private void hatchBreaks() {
        String legend = wording.text("plot.rec.break");
        for (Break place : breaks) {
            double from = Math.min(place.fromS(), place.toS());
            double to = Math.max(place.fromS(), place.toS());
            layers.add(new Layer.Guide(legend, Tone.BAD, Stroke.DASHED, true, from, from, to));
            legend = "";
        }
    }

    private int markDropouts(double at) {
        List<Place> lost = new ArrayList<>();
        for (int piece = 0; piece < trace.size(); piece++) {
            if (trace.dropout().at(piece) > 0) {
                lost.add(Place.of(trace.timeS(piece), at));
            }
        }
        if (!lost.isEmpty()) {
            layers.add(new Layer.Points(wording.text("plot.rec.dropout"), Tone.BAD, Symbol.CROSS, lost));
        }
        return lost.size();
    }

    private int markDoubts(double top, double lane) {
        Map<Flag, List<Place>> doubts = new EnumMap<>(Flag.class);
        for (RecordedPass pass : passes) {
            double middle = (pass.startS() + pass.endS()) / 2;
            for (Flag flag : pass.flags()) {
                doubts.computeIfAbsent(flag, f -> new ArrayList<>()).add(Place.of(middle, 0));
            }
        }
        Symbol[] symbols = {Symbol.DIAMOND, Symbol.RING, Symbol.DISC, Symbol.CROSS, Symbol.SPECK};
        int lanes = 0;
        for (Map.Entry<Flag, List<Place>> doubt : doubts.entrySet()) {
            double at = top + (lanes + 1) * lane;
            List<Place> places = doubt.getValue().stream()
                    .map(place -> Place.of(place.x(), at))
                    .toList();
            Symbol symbol = symbols[lanes % symbols.length];
            layers.add(new Layer.Points(wording.flag(doubt.getKey()), Tone.OPEN, symbol, places));
            lanes++;
        }
        return lanes;
    }

    /** What does not occur is not spoken of. */
    private static Object unlessZero(int count) {
        return count == 0 ? "" : Integer.valueOf(count);
    }

    private int doubtful() {
        return (int) passes.stream().filter(pass -> !pass.flags().isEmpty()).count();
    }
}
