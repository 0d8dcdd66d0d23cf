package slowproof.app.web;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Trial;
import slowproof.trial.input.InputProblem;
import slowproof.trial.slips.Slips;
import slowproof.wording.Wording;

/** Asks about likely slips of typing while the person still stands at the bench. */
final class Questions {
    private Questions() {}

    /** Returns the question without the place in a file, which a page does not have. */
    static String sentence(InputProblem question, Wording wording) {
        return wording.text("ask." + question.code().key(), question.arguments().toArray());
    }

    /** Returns what a further reading makes questionable that was not so before. */
    static List<String> raised(@Nullable Trial before, @Nullable Trial after, Wording wording) {
        if (after == null) {
            return List.of();
        }
        Set<InputProblem> known = before == null ? Set.of() : new HashSet<>(Slips.questions(before));
        return Slips.questions(after).stream()
                .filter(question -> !known.contains(question))
                .map(question -> sentence(question, wording))
                .distinct()
                .toList();
    }
}
