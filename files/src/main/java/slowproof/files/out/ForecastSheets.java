package slowproof.files.out;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Interval;
import slowproof.trial.forecast.Contribution;
import slowproof.trial.forecast.Coverage;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecast.Change;
import slowproof.trial.forecast.Forecast.Figures;
import slowproof.trial.forecast.Forecast.Remedy;
import slowproof.trial.forecast.Promises;
import slowproof.trial.spectrum.KnotDistances;
import slowproof.wording.LineReply;
import slowproof.wording.Wording;

/** A forecast as tables for spreadsheets. Names are the keys of the JSON document, so that both read alike. */
final class ForecastSheets {
    private static final double PPM = 1e6;
    private static final double PERCENT = 100;

    private final Forecast forecast;
    private final Wording wording;

    ForecastSheets(Forecast forecast, Wording wording) {
        this.forecast = forecast;
        this.wording = wording;
    }

    List<Sheet> all() {
        return List.of(answer(), figures(), contributions(), changes(), corrections(), gaps(), spectrum());
    }

    private Sheet answer() {
        Sheet.Builder sheet = new Sheet.Builder("answer", "line", "material", "answer");
        String title = forecast.line().title();
        String material = forecast.evidence().material();
        LineReply.sentences(forecast, wording).forEach(sentence -> sheet.row(title, material, sentence));
        return sheet.build();
    }

    /** One row a figure: its key, its value or the two ends of an interval, and why it is not there. */
    Sheet figures() {
        Sheet.Builder sheet = new Sheet.Builder("figures", "key", "value", "low", "high", "not_available_because");
        number(sheet, "piece_length_mm", forecast.line().pieces().get(0).lengthMm(), "");
        Figures figures = forecast.figures();
        if (figures == null) {
            number(sheet, "expected_error_mm", null, wording.text("forecast.refused.no_repeats"));
            sheet.row("decision", "undecided", null, null, null);
            return sheet.build();
        }
        String untoleranced = wording.text("forecast.reason.no_tolerance");
        number(sheet, "expected_error_mm", figures.expectedErrorMm(), "");
        number(sheet, "piece_deviation_mm", figures.deviationMm(), wording.text("forecast.reason.elsewhere"));
        number(sheet, "mean_standard_uncertainty_mm", figures.meanUncertaintyMm(), "");
        interval(sheet, "mean_interval_95_mm", figures.meanInterval(), 1, "");
        number(sheet, "piece_spread_mm", figures.spreadMm(), "");
        interval(sheet, "piece_interval_95_mm", figures.pieceInterval(), 1, "");
        Double outside = figures.outside();
        number(sheet, "outside_tolerance_ppm", outside == null ? null : Double.valueOf(PPM * outside), untoleranced);
        interval(sheet, "outside_interval_ppm", figures.outsideInterval(), PPM, untoleranced);
        Coverage coverage = figures.coverage();
        sheet.row("covered", String.valueOf(figures.covered()), null, null, null);
        number(sheet, "uncovered_mm", coverage.uncoveredMm(), "");
        interval(sheet, "uncovered_bound_mm", new Interval(0 - coverage.lossMm(), coverage.gainMm()), 1, "");
        number(sheet, "below_slowest_tested_mm", figures.belowSlowestMm(), "");
        number(sheet, "below_floor_mm", figures.belowFloorMm(), wording.text("forecast.reason.no_floor"));
        promises(sheet, figures.promises());
        sheet.row("decision", figures.decision().key(), null, null, null);
        return sheet.build();
    }

    private void promises(Sheet.Builder sheet, Promises promises) {
        number(sheet, "coverage_pct", PERCENT * forecast.line().coverage(), "");
        number(sheet, "confidence_pct", PERCENT * forecast.line().confidence(), "");
        number(sheet, "tolerance_mm_at_95", promises.toleranceMm(), "");
        number(sheet, "slowest_creep_mm_s", promises.slowestCreepMmPerS(), why(promises.creepReason()));
        number(
                sheet,
                "smallest_acceleration_mm_s2",
                promises.smallestAccelerationMmPerS2(),
                why(promises.accelerationReason()));
        Integer stops = promises.mostStops();
        number(
                sheet,
                "largest_stops_per_piece",
                stops == null ? null : Double.valueOf(stops),
                why(promises.stopsReason()));
        number(sheet, "longest_standstill_s", promises.longestStandstillS(), why(promises.standstillReason()));
    }

    private String why(Promises.@Nullable Reason reason) {
        return reason == null ? "" : wording.text("forecast.none." + reason.key());
    }

    private static void number(Sheet.Builder sheet, String key, @Nullable Double value, String why) {
        sheet.row(key, value, null, null, value == null ? why : null);
    }

    private static void interval(
            Sheet.Builder sheet, String key, @Nullable Interval interval, double factor, String why) {
        sheet.row(
                key,
                null,
                interval == null ? null : factor * interval.low(),
                interval == null ? null : factor * interval.high(),
                interval == null ? why : null);
    }

    private Sheet contributions() {
        Sheet.Builder sheet = new Sheet.Builder(
                "contributions", "source", "shared_by_all_pieces", "standard_uncertainty_mm", "share_pct");
        Figures figures = forecast.figures();
        for (Contribution part : figures == null ? List.<Contribution>of() : figures.contributions()) {
            sheet.row(
                    part.source().key(),
                    String.valueOf(part.source().shared()),
                    part.standardUncertaintyMm(),
                    PERCENT * part.share());
        }
        return sheet.build();
    }

    private Sheet changes() {
        Sheet.Builder sheet = new Sheet.Builder("changes", "change", "tolerance_mm_at_95", "gain_mm");
        Figures figures = forecast.figures();
        for (Change change : figures == null ? List.<Change>of() : figures.changes()) {
            sheet.row(change.kind().key(), change.toleranceMm(), change.gainMm());
        }
        return sheet.build();
    }

    private Sheet corrections() {
        Sheet.Builder sheet = new Sheet.Builder("corrections", "correction", "expected_error_mm", "tolerance_mm_at_95");
        Figures figures = forecast.figures();
        for (Remedy remedy : figures == null ? List.<Remedy>of() : figures.remedies()) {
            sheet.row(remedy.kind().key(), remedy.expectedErrorMm(), remedy.toleranceMm());
        }
        return sheet.build();
    }

    private Sheet gaps() {
        Sheet.Builder sheet = new Sheet.Builder("gaps", "lack", "key", "value", "text");
        Figures figures = forecast.figures();
        for (Coverage.Gap gap :
                figures == null ? List.<Coverage.Gap>of() : figures.coverage().gaps()) {
            String[] keys = ForecastJson.keys(gap.lack());
            String text = LineReply.gap(gap, wording);
            sheet.row(gap.lack().key(), keys[0], gap.amount(), text);
            sheet.row(gap.lack().key(), keys[1], gap.add(), text);
        }
        return sheet.build();
    }

    private Sheet spectrum() {
        Sheet.Builder sheet = new Sheet.Builder("travel_spectrum", "speed_mm_s", "distance_mm", "below_slowest_tested");
        Figures figures = forecast.figures();
        if (figures != null) {
            KnotDistances knots = figures.spectrum();
            sheet.row(knots.knotMmPerS(0), knots.belowMm(), "true");
            for (int k = 0; k < knots.size(); k++) {
                sheet.row(knots.knotMmPerS(k), knots.distanceMm(k), "false");
            }
        }
        return sheet.build();
    }
}
