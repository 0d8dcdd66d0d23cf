package slowproof.trial.findings;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import slowproof.trial.Limit;
import slowproof.trial.ReadingMode;
import slowproof.trial.Reference;
import slowproof.trial.Setup;
import slowproof.trial.StatedAccuracy;
import slowproof.trial.Trial;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;

/** Makes the remarks that go with findings: first what the trial lacks, then what a reader should know of each part. */
final class Remarks {
    private final Trial trial;
    private final List<Note> notes = new ArrayList<>();

    private Remarks(Trial trial) {
        this.trial = trial;
    }

    static List<Note> of(
            Trial trial, List<Pass> passes, List<Cycle> cycles, List<Condition> conditions, List<Material> materials) {
        Remarks remarks = new Remarks(trial);
        remarks.onWhatIsMissing(passes);
        remarks.onSetup();
        remarks.onStatedSpeed(passes);
        remarks.onPasses(passes);
        for (Material material : materials) {
            List<Condition> leading = MaterialEvaluation.leading(material.material(), conditions);
            remarks.onMaterial(material, leading, passes);
            leading.forEach(remarks::onDecision);
        }
        conditions.forEach(remarks::onFlags);
        return List.copyOf(remarks.notes);
    }

    private void add(NoteCode code, String where, Object... arguments) {
        notes.add(Note.of(code, where, arguments));
    }

    private void onWhatIsMissing(List<Pass> passes) {
        Limit limit = trial.limit();
        if (limit == null) {
            add(NoteCode.NO_LIMIT, "");
        } else if (limit.preset() != null) {
            add(NoteCode.LIMIT_FROM_MEMORY, "", Objects.requireNonNull(limit.preset()));
        }
        Reference reference = trial.reference();
        if (!reference.hasUncertainty()) {
            add(NoteCode.NO_REFERENCE_UNCERTAINTY, "");
        } else if (reference.tapeClass() != null) {
            add(NoteCode.TAPE_CLASS, "", reference.tapeClass().name());
        }
        if (trial.sensor().resolutionMm() == null) {
            add(NoteCode.NO_RESOLUTION, "");
        }
        if (passes.stream().allMatch(pass -> pass.accelerationMmPerS2() == null)) {
            add(NoteCode.NO_ACCELERATION, "");
        }
        if (trial.mode() == ReadingMode.ZEROED) {
            add(NoteCode.CLOSURE_NOT_AVAILABLE, "");
        }
    }

    private void onSetup() {
        Setup setup = trial.setup();
        if (setup.misalignmentDegrees() == null) {
            add(NoteCode.NO_MISALIGNMENT, "");
        }
        Double mean = setup.temperatureMeanC();
        if (mean == null || setup.expansionPpmPerK() == null) {
            add(NoteCode.NO_TEMPERATURE, "");
        } else if (setup.temperatureFactor() != 1) {
            add(
                    NoteCode.TEMPERATURE_CORRECTED,
                    "",
                    new Quantity(mean, Unit.CELSIUS),
                    new Quantity((setup.temperatureFactor() - 1) * 1e6, Unit.PPM));
        }
        if (setup.abbeOffsetMm() != null && setup.abbeAngleDegrees() == null) {
            add(NoteCode.ABBE_WITHOUT_ANGLE, "");
        }
    }

    private void onStatedSpeed(List<Pass> passes) {
        StatedAccuracy stated = trial.stated();
        if (stated == null) {
            return;
        }
        boolean anchored = passes.stream().anyMatch(pass -> pass.speedMmPerS() >= stated.fromSpeedMmPerS());
        if (!anchored) {
            add(NoteCode.NO_ANCHOR_PASS, "", Quantity.mmPerS(stated.fromSpeedMmPerS()));
        }
    }

    private void onPasses(List<Pass> passes) {
        if (passes.size() < 2) {
            add(NoteCode.FEWER_THAN_TWO_PASSES, "");
        }
        for (Pass pass : passes) {
            String because = pass.excludedBecause();
            if (because != null) {
                add(NoteCode.EXCLUDED, pass.id(), because);
            }
        }
        for (int i = 1; i < passes.size(); i++) {
            LocalDateTime before = passes.get(i - 1).time();
            LocalDateTime time = passes.get(i).time();
            boolean sameSeries = passes.get(i).series().equals(passes.get(i - 1).series());
            if (sameSeries && before != null && time != null && !time.isAfter(before)) {
                add(NoteCode.TIME_BACKWARDS, passes.get(i).id());
            }
        }
        Set<String> marked = new LinkedHashSet<>();
        for (Pass pass : passes) {
            if (pass.flags().contains(Flag.OUTLIER)) {
                add(NoteCode.OUTLIER, pass.id(), Quantity.mm(pass.errorMm()));
                marked.add(pass.id());
            } else if (pass.flags().contains(Flag.STRAGGLER)) {
                add(NoteCode.STRAGGLER, pass.id(), Quantity.mm(pass.errorMm()));
                marked.add(pass.id());
            }
        }
        if (!marked.isEmpty()) {
            long tested = cellsTested(passes);
            // each test alone flags 5 % of clean groups: a reader must know how many that makes
            add(NoteCode.FLAGS_BY_CHANCE, "", tested, Rules.STRAGGLER_LEVEL * tested);
        }
    }

    private static long cellsTested(List<Pass> passes) {
        return passes.stream()
                .filter(Pass::included)
                .map(pass -> new MaterialScatter.Cell(ConditionKey.of(pass), pass.direction()))
                .distinct()
                .filter(cell -> passes.stream()
                                .filter(pass -> pass.included()
                                        && pass.direction() == cell.direction()
                                        && ConditionKey.of(pass).equals(cell.key()))
                                .count()
                        > 2)
                .count();
    }

    private void onMaterial(Material material, List<Condition> leading, List<Pass> passes) {
        long setups = passes.stream()
                .filter(pass -> pass.material().equals(material.material()))
                .map(Pass::setup)
                .distinct()
                .count();
        if (setups > 1) {
            add(NoteCode.SEVERAL_SETUPS, material.material(), setups);
        }
        if (material.curve() != null) {
            notes.addAll(material.curve().notes());
        }
        if (!material.byDirection().isEmpty()) {
            add(NoteCode.CURVES_BY_DIRECTION, material.material());
        }
        boolean scattersNowhere =
                leading.stream().anyMatch(condition -> condition.flags().contains(Flag.SCATTER_BELOW_RESOLUTION));
        Double resolution = trial.sensor().resolutionMm();
        if (scattersNowhere && resolution != null) {
            add(NoteCode.SCATTER_BELOW_RESOLUTION, material.material(), Quantity.mm(resolution));
        }
    }

    private void onDecision(Condition condition) {
        String where = Where.of(condition);
        Integer more = condition.morePasses();
        if (condition.decision() == Answer.UNDECIDED && more != null) {
            if (condition.flags().contains(Flag.REFERENCE_TOO_COARSE)) {
                add(NoteCode.REFERENCE_TOO_COARSE, where, Objects.requireNonNullElse(condition.referenceRatio(), 0.0));
            } else if (more > 0) {
                add(NoteCode.MORE_PASSES_WOULD_DO, where, condition.passes(), (long) more, perDirection(condition));
            } else {
                add(NoteCode.MORE_PASSES_WILL_NOT_DO, where, condition.passes());
            }
        }
        if (condition.decision() != condition.singlePassDecision() && condition.decision() != Answer.SCREENING_ONLY) {
            add(
                    NoteCode.MEAN_AND_SINGLE_PASS_DIFFER,
                    where,
                    condition.decision().key(),
                    condition.singlePassDecision().key());
        }
    }

    private static String perDirection(Condition condition) {
        return condition.direction().key();
    }

    private void onFlags(Condition condition) {
        String where = Where.of(condition);
        for (Flag flag : condition.flags()) {
            switch (flag) {
                case REFERENCE_RATIO_LOW ->
                    add(
                            NoteCode.REFERENCE_RATIO_LOW,
                            where,
                            Objects.requireNonNullElse(condition.referenceRatio(), 0.0));
                case COCHRAN_STRAGGLER -> add(NoteCode.COCHRAN_STRAGGLER, where);
                case COCHRAN_OUTLIER -> add(NoteCode.COCHRAN_OUTLIER, where);
                case REVERSAL_SIGNIFICANT -> {
                    Reversal reversal = Objects.requireNonNull(condition.reversal());
                    add(NoteCode.REVERSAL_SIGNIFICANT, where, Quantity.percent(100 * reversal.difference()));
                }
                default -> {}
            }
        }
    }
}
