package slowproof.files.out;

import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import slowproof.files.in.RecordingRead;
import slowproof.files.in.SourceFile;
import slowproof.metrology.Interval;
import slowproof.trial.IndicatedSpeed;
import slowproof.trial.Limit;
import slowproof.trial.Trial;
import slowproof.trial.curve.Compensation;
import slowproof.trial.curve.CurvePoint;
import slowproof.trial.curve.CurveResult;
import slowproof.trial.curve.ErrorCurve;
import slowproof.trial.dropout.DropoutLimit;
import slowproof.trial.findings.BudgetLine;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Cycle;
import slowproof.trial.findings.Direction;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.FloorSpeed;
import slowproof.trial.findings.Material;
import slowproof.trial.findings.Pass;
import slowproof.trial.findings.ReasonCode;
import slowproof.trial.findings.Reversal;
import slowproof.trial.note.Note;
import slowproof.trial.recording.StandstillDrift;
import slowproof.trial.scatter.Estimate;
import slowproof.wording.DropoutWords;
import slowproof.wording.MaterialFigures;
import slowproof.wording.Wording;

/** Writes findings as one JSON document of schema {@code findings/1}, described in docs/output.md. */
public final class FindingsJson {
    /** Name and version of the document's form. */
    public static final String SCHEMA = "findings/1";

    /** Two strokes tell the parts of the scatter apart from this ratio on. */
    private static final String DRIFT_UNKNOWN = "not available: the record is too short for a drift";

    private final Findings findings;
    private final Wording wording;
    private final JsonRecords json;

    private FindingsJson(Findings findings, Wording wording, JsonRecords json) {
        this.findings = findings;
        this.wording = wording;
        this.json = json;
    }

    /**
     * Writes the document in UTF-8, with a line end after it. The stream is flushed and stays open.
     *
     * @param findings what to write
     * @param envelope what made it
     * @param sources files that took part
     * @param recordings how recordings were read; empty without recordings
     * @param wording language of the sentences
     * @param stream where to
     * @throws IOException if the stream fails
     */
    public static void write(
            Findings findings,
            Envelope envelope,
            List<SourceFile> sources,
            List<RecordingRead> recordings,
            Wording wording,
            OutputStream stream)
            throws IOException {
        try (JsonRecords json = new JsonRecords(stream)) {
            new FindingsJson(findings, wording, json).document(envelope, sources, recordings);
        }
        stream.write('\n');
        stream.flush();
    }

    private void document(Envelope envelope, List<SourceFile> sources, List<RecordingRead> recordings)
            throws IOException {
        json.begin();
        envelope(envelope);
        json.text("trial", findings.trial().title());
        new SubjectJson(json, reason(ReasonCode.NOT_RECORDED)).write(findings.trial());
        limit(findings.trial());
        json.text("decision_rule", key(findings.trial().rule()));
        json.text("reading_mode", key(findings.trial().mode()));
        sources(sources);
        recordings(recordings);
        json.beginList("passes");
        for (Pass pass : findings.passes()) {
            pass(pass);
        }
        json.endList();
        json.beginList("cycles");
        for (Cycle cycle : findings.cycles()) {
            cycle(cycle);
        }
        json.endList();
        conditions("conditions", findings.conditions());
        if (!findings.conditionsWithExcluded().isEmpty()) {
            conditions("conditions_with_excluded", findings.conditionsWithExcluded());
        }
        json.beginList("materials");
        for (Material material : findings.materials()) {
            material(material);
        }
        json.endList();
        json.beginList("notes");
        for (Note note : findings.notes()) {
            json.begin();
            json.text("code", note.code().key());
            json.text("text", wording.note(note));
            json.text("where", note.where());
            json.end();
        }
        json.endList();
        json.end();
    }

    private void envelope(Envelope envelope) throws IOException {
        json.text("schema", SCHEMA);
        json.begin("program");
        json.text("version", envelope.version());
        json.text("commit", envelope.commit());
        json.end();
        json.text("settings_sha256", envelope.settingsSha256());
        json.whole("seed", envelope.seed(), wording.text("reason.no_random_numbers"));
    }

    private void limit(Trial trial) throws IOException {
        Limit limit = trial.limit();
        if (limit == null) {
            json.absent("limit", reason(ReasonCode.NO_LIMIT));
            return;
        }
        json.begin("limit");
        json.percent("relative_pct", limit.relative());
        json.number("absolute_mm", limit.absoluteMm());
        json.number("minimum_mm", limit.minimumMm());
        json.number("at_length_mm", limit.atLengthMm(), wording.text("reason.at_length_not_stated"));
        String preset = limit.preset();
        if (preset != null) {
            json.text("preset", preset);
        }
        json.end();
    }

    private void sources(List<SourceFile> sources) throws IOException {
        json.beginList("source_files");
        for (SourceFile source : sources) {
            json.begin();
            json.text("file", source.name());
            json.text("sha256", source.sha256());
            json.end();
        }
        json.endList();
    }

    private void recordings(List<RecordingRead> recordings) throws IOException {
        json.beginList("recordings");
        for (RecordingRead recording : recordings) {
            json.begin();
            json.text("file", recording.file());
            json.text("material", recording.material());
            json.text("read_as", recording.readAs());
            RecordingRead.Clock clock = recording.clock();
            String why = recording.reason() == null ? reason(ReasonCode.NOT_RECORDED) : recording.reason();
            if (clock == null) {
                json.absent("clock", why);
            } else {
                json.begin("clock");
                json.number("offset_s", clock.offsetS());
                json.number("drift_ppm", clock.driftPpm(), DRIFT_UNKNOWN);
                json.number("offset_standard_uncertainty_s", clock.offsetStandardUncertaintyS());
                json.number("drift_standard_uncertainty_ppm", clock.driftStandardUncertaintyPpm(), DRIFT_UNKNOWN);
                json.number("epoch_s", clock.epochS());
                json.number("offset_mid_s", clock.offsetMidS());
                json.number("offset_mid_standard_uncertainty_s", clock.offsetMidStandardUncertaintyS());
                json.end();
            }
            json.text("reason", clock == null ? why : "");
            drift(recording.cut().drift());
            json.end();
        }
        json.endList();
    }

    private void drift(@Nullable StandstillDrift drift) throws IOException {
        String key = "standstill_drift_mm_min";
        if (drift == null) {
            json.absent(key, reason(ReasonCode.NO_SETTLED_STANDSTILL));
            return;
        }
        json.number(key, drift.mmPerMin());
        json.number("standstill_drift_standard_uncertainty_mm_min", drift.standardUncertaintyMmPerMin());
        json.whole("standstill_drift_standstills", drift.standstills());
    }

    private void pass(Pass pass) throws IOException {
        json.begin();
        json.text("id", pass.id());
        json.text("series", pass.series());
        json.text("material", pass.material());
        setup(pass.setup());
        json.number("speed_mm_s", pass.speedMmPerS());
        json.number("plateau_speed_mm_s", pass.plateauSpeedMmPerS(), reason(ReasonCode.TYPED_READINGS));
        json.number("acceleration_mm_s2", pass.accelerationMmPerS2(), reason(ReasonCode.NO_ACCELERATION));
        json.text("direction", pass.direction().key());
        json.number("reference_mm", pass.referenceMm());
        json.number("indication_mm", pass.indicationMm());
        json.number("error_mm", pass.errorMm());
        json.percent("error_pct", pass.error());
        json.number("dropout_pct", pass.dropoutPercent(), reason(ReasonCode.NOT_RECORDED));
        if (pass.speed() != null || pass.plateauSpeedMmPerS() != null) {
            speed(pass.speed(), key -> reason(pass.whyNoSpeed()));
        }
        json.text("time", pass.time() == null ? null : pass.time().toString(), reason(ReasonCode.NOT_RECORDED));
        json.flags(pass.flags());
        String because = pass.excludedBecause();
        if (because != null) {
            json.text("excluded_because", because);
        }
        json.end();
    }

    private void speed(@Nullable IndicatedSpeed speed, UnaryOperator<String> why) throws IOException {
        List<@Nullable Double> figures = SpeedFigures.of(speed);
        for (int i = 0; i < figures.size(); i++) {
            String key = SpeedFigures.KEYS.get(i);
            json.number(key, figures.get(i), why.apply(key));
        }
    }

    private void setup(String setup) throws IOException {
        json.text("setup", setup.isEmpty() ? null : setup, wording.text("reason.setup_unnamed"));
    }

    private void cycle(Cycle cycle) throws IOException {
        json.begin();
        json.text("series", cycle.forward().series());
        json.text("material", cycle.forward().material());
        json.number("speed_mm_s", cycle.forward().speedMmPerS());
        json.text("forward_pass", cycle.forward().id());
        json.text("return_pass", cycle.back().id());
        json.number("closure_mm", cycle.closureMm(), reason(ReasonCode.COUNTER_ZEROED));
        json.end();
    }

    private void conditions(String key, List<Condition> conditions) throws IOException {
        json.beginList(key);
        for (Condition condition : conditions) {
            json.begin();
            new ConditionWriter(condition).write();
            json.end();
        }
        json.endList();
    }

    /** One condition; its own map says why a figure is missing. */
    private final class ConditionWriter {
        private final Condition condition;

        ConditionWriter(Condition condition) {
            this.condition = condition;
        }

        void write() throws IOException {
            json.text("material", condition.key().material());
            setup(condition.key().setup());
            json.number("speed_mm_s", condition.key().speedMmPerS());
            json.number(
                    "acceleration_mm_s2", condition.key().accelerationMmPerS2(), reason(ReasonCode.NO_ACCELERATION));
            json.text("direction", condition.direction().key());
            json.whole("passes", condition.passes());
            json.number("mean_length_mm", condition.meanLengthMm());
            json.number("mean_error_mm", condition.meanErrorMm());
            json.percent("mean_error_pct", condition.meanError());
            percent("repeatability_pct", condition.repeatability());
            number("repeatability_degrees_of_freedom", condition.repeatabilityDegreesOfFreedom());
            percent("repeatability_interval_95_pct", condition.repeatabilityInterval());
            percent("repeatability_limit_pct", condition.repeatabilityLimit());
            percent("limit_pct", condition.limit());
            json.percent("standard_uncertainty_pct", condition.standardUncertainty());
            number("effective_degrees_of_freedom", condition.effectiveDegreesOfFreedom());
            json.number("coverage_factor", condition.coverageFactor());
            json.percent("expanded_uncertainty_pct", condition.expandedUncertainty());
            number("conformance_probability", condition.conformanceProbability());
            json.text("decision", condition.decision().key());
            json.whole("passes_outside", condition.passesOutside(), why("passes_outside"));
            number("single_pass_probability", condition.singlePassProbability());
            json.text("single_pass_decision", condition.singlePassDecision().key());
            speed(condition.speed(), this::why);
            budget();
            if (condition.direction() == Direction.BOTH) {
                reversal(condition.reversal());
            }
            json.flags(condition.flags());
        }

        private void budget() throws IOException {
            json.beginList("budget");
            for (BudgetLine line : condition.budget()) {
                json.begin();
                json.text("source", line.source().label());
                json.percent("standard_uncertainty_pct", line.standardUncertainty());
                json.number("degrees_of_freedom", line.degreesOfFreedom(), wording.text("reason.not_from_repeats"));
                json.number("share_pct", line.sharePercent());
                json.end();
            }
            json.endList();
        }

        private void reversal(@Nullable Reversal reversal) throws IOException {
            json.percent(
                    "reversal_pct",
                    reversal == null ? null : Double.valueOf(reversal.difference()),
                    reason(ReasonCode.TOO_FEW_CYCLES));
            json.percent(
                    "reversal_interval_95_pct",
                    reversal == null ? null : reversal.interval(),
                    reason(ReasonCode.TOO_FEW_CYCLES));
        }

        private void number(String key, @Nullable Double value) throws IOException {
            json.number(key, value, why(key));
        }

        private void percent(String key, @Nullable Double ratio) throws IOException {
            json.percent(key, ratio, why(key));
        }

        private void percent(String key, @Nullable Interval ratios) throws IOException {
            json.percent(key, ratios, why(key));
        }

        private String why(String key) {
            return explained(condition.reasons(), key, ReasonCode.NOT_RECORDED);
        }
    }

    private void material(Material material) throws IOException {
        json.begin();
        json.text("material", material.material());
        curve(material);
        floor(material.floor());
        MaterialFigures figures = new MaterialFigures(material);
        json.percent("scale_error_pct", figures.scaleError(), reason(figures.whyNoScaleError()));
        json.number(
                "pass_scatter_mm",
                material.passScatterMm(),
                explained(material, "pass_scatter_mm", ReasonCode.NO_REPEATS));
        estimate("start_loss_mm", figures.startLoss(), material);
        estimate("start_scatter_mm", figures.startScatter(), material);
        estimate("travel_scatter_mm_per_sqrt_m", figures.travelScatter(), material);
        compensated(material, figures);
        dropoutLimit(material.dropoutLimit());
        json.end();
    }

    private void curve(Material material) throws IOException {
        json.beginList("error_curve");
        for (Map.Entry<Direction, CurveResult> entry : material.byDirection().entrySet()) {
            curve(entry.getKey(), entry.getValue());
        }
        curve(Direction.BOTH, material.curve());
        json.endList();
    }

    private void curve(Direction direction, @Nullable CurveResult result) throws IOException {
        ErrorCurve curve = result == null ? null : result.curve();
        if (curve == null) {
            return;
        }
        for (CurvePoint point : curve.grid()) {
            json.begin();
            json.number("speed_mm_s", point.speedMmPerS());
            json.text("direction", direction.key());
            json.number("error_pct", 100 * point.error());
            json.number("standard_uncertainty_pct", 100 * point.standardUncertainty());
            json.number("low_95_pct", 100 * point.low());
            json.number("high_95_pct", 100 * point.high());
            json.end();
        }
    }

    private void estimate(String key, @Nullable Estimate estimate, Material material) throws IOException {
        json.number(
                key,
                estimate == null ? null : estimate.value(),
                new MaterialFigures(material).whyPartsUnknown(findings, wording));
        if (estimate != null) {
            json.interval(key.replace("_mm", "_interval_95_mm"), estimate.low(), estimate.high());
        }
    }

    private void floor(FloorSpeed floor) throws IOException {
        json.begin("floor_speed");
        json.text("status", floor.status().key());
        speed("estimate_mm_s", floor.estimate(), floor);
        speed("low_mm_s", floor.low(), floor);
        speed("high_mm_s", floor.high(), floor);
        speed("safe_mm_s", floor.safe(), floor);
        speed("proven_mm_s", floor.proven(), floor);
        json.number("tested_down_to_mm_s", floor.testedDownTo());
        speed("confidence_pct", floor.confidencePercent(), floor);
        json.numbers("undecided_mm_s", floor.undecided());
        json.end();
    }

    private void speed(String key, @Nullable Double value, FloorSpeed floor) throws IOException {
        json.number(key, value, explained(floor.reasons(), key, ReasonCode.THIN_TRIAL));
    }

    private void compensated(Material material, MaterialFigures figures) throws IOException {
        Compensation compensation = material.compensation();
        String why = reason(figures.whyNoCompensation());
        json.begin("compensated");
        if (compensation == null) {
            for (String key : List.of("speed_mm_s", "as_found_pct", "repeatability_pct", "remaining_pct", "void")) {
                json.absent(key, why);
            }
            json.text("reason", why);
        } else {
            json.number("speed_mm_s", compensation.speedMmPerS());
            json.percent("as_found_pct", compensation.asFound(), why);
            json.percent("repeatability_pct", compensation.repeatability(), reason(ReasonCode.NO_REPEATS));
            json.percent("remaining_pct", compensation.remaining(), why);
            json.truth("void", compensation.reason() != null);
            json.text("reason", compensation.reason() == null ? null : why, wording.text("reason.not_needed"));
        }
        json.end();
    }

    private void dropoutLimit(@Nullable DropoutLimit limit) throws IOException {
        json.begin("dropout_limit");
        String unknown = limit == null ? reason(ReasonCode.NO_LIMIT) : DropoutWords.why(limit, wording);
        json.text("status", limit == null ? DropoutLimit.Status.NOT_LEARNABLE.key() : DropoutWords.status(limit));
        json.number("limit_pct", limit == null ? null : limit.limitPct(), unknown);
        json.number("largest_good_pct", limit == null ? null : limit.gapLowPct(), unknown);
        json.number("smallest_failed_pct", limit == null ? null : limit.gapHighPct(), unknown);
        json.number("confidence_pct", limit == null ? null : limit.confidencePct(), unknown);
        json.percent("sensitivity_pct", limit == null ? null : limit.sensitivity(), unknown);
        json.percent("false_alarm_pct", limit == null ? null : limit.falseAlarm(), unknown);
        boolean learned = limit != null && limit.reason() == null;
        json.text("reason", learned ? null : unknown, wording.text("reason.not_needed"));
        json.end();
    }

    private String explained(Material material, String key, ReasonCode otherwise) {
        return explained(material.reasons(), key, otherwise);
    }

    private String explained(Map<String, ReasonCode> reasons, String key, ReasonCode otherwise) {
        return reason(Objects.requireNonNullElse(reasons.get(key), otherwise));
    }

    private String reason(ReasonCode code) {
        return wording.reason(code);
    }

    private static String key(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT);
    }
}
