package slowproof.files.out;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Interval;
import slowproof.trial.findings.BudgetLine;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.ConditionKey;
import slowproof.trial.findings.Cycle;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Flag;
import slowproof.trial.findings.FloorSpeed;
import slowproof.trial.findings.Material;
import slowproof.trial.findings.Pass;
import slowproof.trial.note.Note;
import slowproof.wording.MaterialAnswer;
import slowproof.wording.Reply;
import slowproof.wording.Wording;

/** Findings as tables for spreadsheets. Headings are the keys of the JSON document, so that both read alike. */
final class FindingsSheets {
    private final Findings findings;
    private final Wording wording;

    FindingsSheets(Findings findings, Wording wording) {
        this.findings = findings;
        this.wording = wording;
    }

    List<Sheet> all() {
        return List.of(answer(), conditions(), passes(), cycles(), budget(), notes());
    }

    private Sheet answer() {
        Sheet.Builder sheet = new Sheet.Builder(
                "answer",
                "material",
                "answer",
                "floor_status",
                "floor_low_mm_s",
                "floor_high_mm_s",
                "safe_mm_s",
                "tested_down_to_mm_s");
        for (MaterialAnswer answer : MaterialAnswer.all(findings, wording)) {
            Material material = answer.material();
            FloorSpeed floor = material.floor();
            sheet.row(
                    material.material(),
                    String.join(" ", answer.sentences()),
                    floor.status().key(),
                    floor.low(),
                    floor.high(),
                    floor.safe(),
                    floor.testedDownTo());
        }
        for (String remark : Reply.remarks(findings, wording)) {
            sheet.row("", remark, null, null, null, null, null);
        }
        return sheet.build();
    }

    /**
     * The conditions without the passes that were left out, and after them the conditions with them; the column
     * excluded_passes tells which is which.
     */
    Sheet conditions() {
        Sheet.Builder sheet = new Sheet.Builder(
                "conditions",
                "material",
                "setup",
                "speed_mm_s",
                "acceleration_mm_s2",
                "direction",
                "excluded_passes",
                "passes",
                "mean_length_mm",
                "mean_error_mm",
                "mean_error_pct",
                "repeatability_pct",
                "repeatability_degrees_of_freedom",
                "repeatability_low_95_pct",
                "repeatability_high_95_pct",
                "repeatability_limit_pct",
                "limit_pct",
                "standard_uncertainty_pct",
                "effective_degrees_of_freedom",
                "coverage_factor",
                "expanded_uncertainty_pct",
                "conformance_probability",
                "decision",
                "passes_outside",
                "single_pass_probability",
                "single_pass_decision",
                "speed_error_pct",
                "speed_error_standard_uncertainty_pct",
                "speed_ripple_pct",
                "speed_ripple_counting_share_pct",
                "speed_ripple_averaging_s",
                "flags");
        boolean excluded = !findings.conditionsWithExcluded().isEmpty();
        rows(sheet, findings.conditions(), excluded ? "left out" : "none");
        rows(sheet, findings.conditionsWithExcluded(), "counted");
        return sheet.build();
    }

    private static void rows(Sheet.Builder sheet, List<Condition> conditions, String excluded) {
        for (Condition row : conditions) {
            ConditionKey key = row.key();
            Interval interval = row.repeatabilityInterval();
            double freedom = row.effectiveDegreesOfFreedom();
            List<@Nullable Double> speed = SpeedFigures.of(row.speed());
            sheet.row(
                    key.material(),
                    key.setup(),
                    key.speedMmPerS(),
                    key.accelerationMmPerS2(),
                    row.direction().key(),
                    excluded,
                    row.passes(),
                    row.meanLengthMm(),
                    row.meanErrorMm(),
                    100 * row.meanError(),
                    percent(row.repeatability()),
                    row.repeatabilityDegreesOfFreedom(),
                    interval == null ? null : 100 * interval.low(),
                    interval == null ? null : 100 * interval.high(),
                    percent(row.repeatabilityLimit()),
                    percent(row.limit()),
                    100 * row.standardUncertainty(),
                    Double.isInfinite(freedom) ? null : freedom,
                    row.coverageFactor(),
                    100 * row.expandedUncertainty(),
                    row.conformanceProbability(),
                    row.decision().key(),
                    row.passesOutside(),
                    row.singlePassProbability(),
                    row.singlePassDecision().key(),
                    speed.get(0),
                    speed.get(1),
                    speed.get(2),
                    speed.get(3),
                    speed.get(4),
                    flags(row.flags()));
        }
    }

    private static @Nullable Double percent(@Nullable Double ratio) {
        return ratio == null ? null : 100 * ratio;
    }

    private static String flags(Iterable<Flag> flags) {
        StringBuilder text = new StringBuilder();
        flags.forEach(flag -> text.append(text.isEmpty() ? "" : ", ").append(flag.key()));
        return text.toString();
    }

    private Sheet passes() {
        Sheet.Builder sheet = new Sheet.Builder(
                "passes",
                "id",
                "series",
                "material",
                "setup",
                "speed_mm_s",
                "plateau_speed_mm_s",
                "acceleration_mm_s2",
                "direction",
                "reference_mm",
                "indication_mm",
                "error_mm",
                "error_pct",
                "dropout_pct",
                "speed_error_pct",
                "speed_error_standard_uncertainty_pct",
                "speed_ripple_pct",
                "speed_ripple_counting_share_pct",
                "speed_ripple_averaging_s",
                "time",
                "flags",
                "excluded_because");
        for (Pass pass : findings.passes()) {
            List<@Nullable Double> speed = SpeedFigures.of(pass.speed());
            sheet.row(
                    pass.id(),
                    pass.series(),
                    pass.material(),
                    pass.setup(),
                    pass.speedMmPerS(),
                    pass.plateauSpeedMmPerS(),
                    pass.accelerationMmPerS2(),
                    pass.direction().key(),
                    pass.referenceMm(),
                    pass.indicationMm(),
                    pass.errorMm(),
                    100 * pass.error(),
                    pass.dropoutPercent(),
                    speed.get(0),
                    speed.get(1),
                    speed.get(2),
                    speed.get(3),
                    speed.get(4),
                    pass.time() == null ? null : pass.time().toString(),
                    flags(pass.flags()),
                    pass.excludedBecause());
        }
        return sheet.build();
    }

    private Sheet cycles() {
        Sheet.Builder sheet = new Sheet.Builder(
                "cycles", "series", "material", "speed_mm_s", "forward_pass", "return_pass", "closure_mm");
        for (Cycle cycle : findings.cycles()) {
            sheet.row(
                    cycle.forward().series(),
                    cycle.forward().material(),
                    cycle.forward().speedMmPerS(),
                    cycle.forward().id(),
                    cycle.back().id(),
                    cycle.closureMm());
        }
        return sheet.build();
    }

    private Sheet budget() {
        Sheet.Builder sheet = new Sheet.Builder(
                "budget",
                "material",
                "setup",
                "speed_mm_s",
                "acceleration_mm_s2",
                "direction",
                "source",
                "standard_uncertainty_pct",
                "degrees_of_freedom",
                "share_pct");
        for (Condition row : findings.conditions()) {
            for (BudgetLine line : row.budget()) {
                double freedom = line.degreesOfFreedom();
                sheet.row(
                        row.key().material(),
                        row.key().setup(),
                        row.key().speedMmPerS(),
                        row.key().accelerationMmPerS2(),
                        row.direction().key(),
                        line.source().label(),
                        100 * line.standardUncertainty(),
                        Double.isInfinite(freedom) ? null : freedom,
                        line.sharePercent());
            }
        }
        return sheet.build();
    }

    private Sheet notes() {
        Sheet.Builder sheet = new Sheet.Builder("notes", "code", "where", "text");
        for (Note note : findings.notes()) {
            sheet.row(note.code().key(), note.where(), wording.note(note));
        }
        return sheet.build();
    }
}
