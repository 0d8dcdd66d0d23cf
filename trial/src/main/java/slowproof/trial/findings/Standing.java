package slowproof.trial.findings;

import java.util.Collection;
import java.util.Locale;

/** Where a material, or a whole trial, stands against its limit. */
public enum Standing {
    /** Holds at every tested speed. */
    HOLDS,
    /** Holds at some of the tested speeds. */
    PARTLY,
    /** Holds at none. */
    FAILS,
    /** Nothing is shown to hold, and not everything fails. */
    UNDECIDED,
    /** No decision is possible. */
    SCREENING_ONLY;

    /**
     * Returns where a material stands.
     *
     * @param answers the answers at its tested speeds, at least one
     */
    public static Standing of(Collection<Answer> answers) {
        if (answers.contains(Answer.SCREENING_ONLY)) {
            return SCREENING_ONLY;
        }
        if (answers.contains(Answer.CONFORMS)) {
            return answers.stream().allMatch(answer -> answer == Answer.CONFORMS) ? HOLDS : PARTLY;
        }
        return answers.stream().allMatch(answer -> answer == Answer.DOES_NOT_CONFORM) ? FAILS : UNDECIDED;
    }

    /** Returns the word for files and archives, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
