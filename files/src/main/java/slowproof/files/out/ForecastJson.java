package slowproof.files.out;

import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.files.in.SourceFile;
import slowproof.metrology.Interval;
import slowproof.trial.forecast.Contribution;
import slowproof.trial.forecast.Coverage;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecast.Change;
import slowproof.trial.forecast.Forecast.Figures;
import slowproof.trial.forecast.Forecast.Remedy;
import slowproof.trial.forecast.Forecast.Sampled;
import slowproof.trial.forecast.Promises;
import slowproof.trial.spectrum.KnotDistances;
import slowproof.wording.LineReply;
import slowproof.wording.Wording;

/** Writes a forecast as one JSON document of schema {@code forecast/1}, described in docs/output.md. */
public final class ForecastJson {
    /** Name and version of the document's form. */
    public static final String SCHEMA = "forecast/1";

    /** What a trial without repeats cannot say. */
    private static final List<String> FIGURES = List.of(
            "expected_error_mm",
            "piece_deviation_mm",
            "mean_standard_uncertainty_mm",
            "mean_interval_95_mm",
            "piece_spread_mm",
            "piece_interval_95_mm",
            "outside_tolerance_ppm",
            "outside_interval_ppm",
            "uncovered_mm",
            "uncovered_bound_mm",
            "gaps",
            "below_slowest_tested_mm",
            "below_floor_mm",
            "travel_spectrum",
            "contributions",
            "monte_carlo",
            "promises",
            "corrections",
            "changes");

    private final Forecast forecast;
    private final Wording wording;
    private final JsonRecords json;

    private ForecastJson(Forecast forecast, Wording wording, JsonRecords json) {
        this.forecast = forecast;
        this.wording = wording;
        this.json = json;
    }

    /**
     * Writes the document in UTF-8, with a line end after it. The stream is flushed and stays open.
     *
     * @param forecast what to write
     * @param envelope what made it
     * @param sources files that took part
     * @param wording language of the sentences
     * @param stream where to
     * @throws IOException if the stream fails
     */
    public static void write(
            Forecast forecast, Envelope envelope, List<SourceFile> sources, Wording wording, OutputStream stream)
            throws IOException {
        try (JsonRecords json = new JsonRecords(stream)) {
            new ForecastJson(forecast, wording, json).document(envelope, sources);
        }
        stream.write('\n');
        stream.flush();
    }

    private void document(Envelope envelope, List<SourceFile> sources) throws IOException {
        json.begin();
        json.text("schema", SCHEMA);
        json.begin("program");
        json.text("version", envelope.version());
        json.text("commit", envelope.commit());
        json.end();
        json.text("settings_sha256", envelope.settingsSha256());
        json.whole("seed", envelope.seed(), wording.text("reason.no_random_numbers"));
        json.beginList("source_files");
        for (SourceFile source : sources) {
            json.begin();
            json.text("file", source.name());
            json.text("sha256", source.sha256());
            json.end();
        }
        json.endList();
        json.text("line", forecast.line().title());
        json.text("material", forecast.evidence().material());
        json.number("piece_length_mm", forecast.line().pieces().get(0).lengthMm());
        Figures figures = forecast.figures();
        if (figures == null) {
            String why = wording.text("forecast.refused.no_repeats");
            for (String key : FIGURES) {
                json.absent(key, why);
            }
            json.truth("covered", false);
            json.text("decision", "undecided");
        } else {
            figures(figures);
        }
        json.end();
    }

    private void figures(Figures figures) throws IOException {
        String none = wording.text("forecast.reason.no_tolerance");
        json.number("expected_error_mm", figures.expectedErrorMm());
        json.number("piece_deviation_mm", figures.deviationMm(), wording.text("forecast.reason.elsewhere"));
        json.number("mean_standard_uncertainty_mm", figures.meanUncertaintyMm());
        interval("mean_interval_95_mm", figures.meanInterval(), 1, none);
        json.number("piece_spread_mm", figures.spreadMm());
        interval("piece_interval_95_mm", figures.pieceInterval(), 1, none);
        Double outside = figures.outside();
        json.number("outside_tolerance_ppm", outside == null ? null : Double.valueOf(1e6 * outside), none);
        interval("outside_interval_ppm", figures.outsideInterval(), 1e6, none);
        json.truth("covered", figures.covered());
        Coverage coverage = figures.coverage();
        json.number("uncovered_mm", coverage.uncoveredMm());
        json.interval("uncovered_bound_mm", 0 - coverage.lossMm(), coverage.gainMm());
        json.beginList("gaps");
        for (Coverage.Gap gap : coverage.gaps()) {
            json.begin();
            json.text("lack", gap.lack().key());
            String[] keys = keys(gap.lack());
            json.number(keys[0], gap.amount());
            json.number(keys[1], gap.add());
            json.text("text", LineReply.gap(gap, wording));
            json.end();
        }
        json.endList();
        json.number("below_slowest_tested_mm", figures.belowSlowestMm());
        json.number("below_floor_mm", figures.belowFloorMm(), wording.text("forecast.reason.no_floor"));
        spectrum(figures.spectrum());
        json.beginList("contributions");
        for (Contribution part : figures.contributions()) {
            json.begin();
            json.text("source", part.source().key());
            json.truth("shared_by_all_pieces", part.source().shared());
            json.number("standard_uncertainty_mm", part.standardUncertaintyMm());
            json.percent("share_pct", part.share());
            json.end();
        }
        json.endList();
        monteCarlo(figures.monteCarlo(), none);
        promises(figures.promises());
        json.beginList("corrections");
        for (Remedy remedy : figures.remedies()) {
            json.begin();
            json.text("correction", remedy.kind().key());
            json.number("expected_error_mm", remedy.expectedErrorMm());
            json.number("tolerance_mm_at_95", remedy.toleranceMm());
            json.end();
        }
        json.endList();
        json.beginList("changes");
        for (Change change : figures.changes()) {
            json.begin();
            json.text("change", change.kind().key());
            json.number("tolerance_mm_at_95", change.toleranceMm());
            json.number("gain_mm", change.gainMm());
            json.end();
        }
        json.endList();
        json.text("decision", figures.decision().key());
    }

    /** Returns the keys of how much is missing and of what to add: their units differ from gap to gap. */
    static String[] keys(Coverage.Lack lack) {
        return switch (lack) {
            case SLOWER, FASTER -> new String[] {"uncovered_mm", "add_speed_mm_s"};
            case NO_ACCELERATION -> new String[] {"uncovered_mm", "below_speed_mm_s"};
            case SOFTER_RAMPS, HARDER_RAMPS -> new String[] {"line_acceleration_mm_s2", "tested_acceleration_mm_s2"};
            case MORE_STARTS -> new String[] {"starts_per_mm", "add_stroke_mm"};
            case START_LOSS_UNKNOWN -> new String[] {"hidden_error_mm", "add_stroke_mm"};
        };
    }

    private void spectrum(KnotDistances spectrum) throws IOException {
        json.beginList("travel_spectrum");
        json.begin();
        json.truth("below_slowest_tested", true);
        json.number("speed_mm_s", spectrum.knotMmPerS(0));
        json.number("distance_mm", spectrum.belowMm());
        json.end();
        for (int k = 0; k < spectrum.size(); k++) {
            json.begin();
            json.number("speed_mm_s", spectrum.knotMmPerS(k));
            json.number("distance_mm", spectrum.distanceMm(k));
            json.end();
        }
        json.endList();
    }

    private void monteCarlo(Sampled run, String none) throws IOException {
        json.begin("monte_carlo");
        json.whole("pieces", run.pieces());
        json.whole("seed", run.seed());
        json.number("expected_error_mm", run.expectedErrorMm());
        interval("piece_interval_95_mm", run.pieceInterval(), 1, none);
        Double outside = run.outside();
        json.number("outside_tolerance_ppm", outside == null ? null : Double.valueOf(1e6 * outside), none);
        json.truth("importance_sampling", run.tailSampled());
        json.truth("stable", run.stable());
        json.end();
    }

    private void promises(Promises promises) throws IOException {
        json.begin("promises");
        json.number("coverage_pct", 100 * forecast.line().coverage());
        json.number("confidence_pct", 100 * forecast.line().confidence());
        json.number("tolerance_mm_at_95", promises.toleranceMm());
        json.number("slowest_creep_mm_s", promises.slowestCreepMmPerS(), none(promises.creepReason()));
        json.number(
                "smallest_acceleration_mm_s2",
                promises.smallestAccelerationMmPerS2(),
                none(promises.accelerationReason()));
        json.whole("largest_stops_per_piece", promises.mostStops(), none(promises.stopsReason()));
        json.number("longest_standstill_s", promises.longestStandstillS(), none(promises.standstillReason()));
        json.end();
    }

    private String none(Promises.@Nullable Reason reason) {
        return reason == null ? "" : wording.text("forecast.none." + reason.key());
    }

    private void interval(String key, @Nullable Interval interval, double factor, String why) throws IOException {
        if (interval == null) {
            json.absent(key, why);
        } else {
            json.interval(key, factor * interval.low(), factor * interval.high());
        }
    }
}
