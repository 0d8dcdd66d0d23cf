package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.List;
import java.util.NavigableMap;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Trial;
import slowproof.trial.note.Note;

/**
 * Everything a trial says.
 *
 * @param trial the trial itself
 * @param passes all passes, excluded ones too, in file order
 * @param cycles all cycles, in file order
 * @param conditions conditions without the excluded passes
 * @param conditionsWithExcluded conditions with the excluded passes; empty when nothing was excluded
 * @param materials materials in file order
 * @param notes remarks
 */
public record Findings(
        Trial trial,
        List<Pass> passes,
        List<Cycle> cycles,
        List<Condition> conditions,
        List<Condition> conditionsWithExcluded,
        List<Material> materials,
        List<Note> notes) {
    /** Copies the lists. */
    public Findings {
        passes = List.copyOf(passes);
        cycles = List.copyOf(cycles);
        conditions = List.copyOf(conditions);
        conditionsWithExcluded = List.copyOf(conditionsWithExcluded);
        materials = List.copyOf(materials);
        notes = List.copyOf(notes);
    }

    /** Returns the same findings with further notes in front, such as those on how files were read. */
    public Findings withNotesBefore(List<Note> further) {
        List<Note> all = new ArrayList<>(further);
        all.addAll(notes);
        return new Findings(trial, passes, cycles, conditions, conditionsWithExcluded, materials, all);
    }

    /**
     * Returns for each condition of a material the row that speaks for it: both directions where both were
     * driven, else the only one. Speed ascending.
     */
    public List<Condition> leading(String material) {
        return MaterialEvaluation.leading(material, conditions);
    }

    /** Returns the condition rows of one material, all directions. */
    public List<Condition> conditionsOf(String material) {
        return conditions.stream()
                .filter(condition -> condition.key().material().equals(material))
                .toList();
    }

    /** Returns the passes of one material, excluded ones too. */
    public List<Pass> passesOf(String material) {
        return passes.stream().filter(pass -> pass.material().equals(material)).toList();
    }

    /**
     * Returns the length in mm for which the limit is applied to the error curve and the floor speed of a material: the
     * stated one, else the median stroke; null without a limit or a pass that counts.
     */
    public @Nullable Double judgedAtMm(String material) {
        List<Pass> counted = passesOf(material).stream().filter(Pass::included).toList();
        return trial.limit() == null || counted.isEmpty()
                ? null
                : Double.valueOf(CurveFloor.lengthMm(trial.limit(), counted));
    }

    /**
     * Returns for each tested speed of a material, ascending, the least favourable answer about the mean error over
     * set-ups and accelerations.
     */
    public NavigableMap<Double, Answer> meanAnswers(String material) {
        return FloorBracket.answers(leading(material), Condition::decision);
    }

    /** Returns the same as {@link #meanAnswers} about one future pass. */
    public NavigableMap<Double, Answer> singlePassAnswers(String material) {
        return FloorBracket.answers(leading(material), Condition::singlePassDecision);
    }

    /**
     * Returns the slowest speed from which on a single pass holds the limit, as a bracket between tested speeds. It
     * can lie above the floor of the mean error, because a pass scatters and a mean hides that.
     */
    public FloorSpeed singlePassFloor(String material) {
        return FloorBracket.of(leading(material), Condition::singlePassDecision);
    }
}
