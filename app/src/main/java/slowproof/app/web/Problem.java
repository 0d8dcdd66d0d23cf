package slowproof.app.web;

import java.util.List;
import java.util.Optional;
import slowproof.archive.typed.NotUnderstoodException;
import slowproof.wording.Wording;

/**
 * What is wrong with a field of a form.
 *
 * @param field name of the field
 * @param text what was typed, what is wanted, how to mend it
 */
public record Problem(String field, String text) {
    static Problem of(String field, NotUnderstoodException e, Wording wording) {
        return new Problem(field, wording.text("typed." + e.why().key(), e.typed()));
    }

    /** Returns the text for a field, empty when nothing is wrong with it. */
    public static String at(List<Problem> problems, String field) {
        Optional<Problem> found =
                problems.stream().filter(problem -> problem.field.equals(field)).findFirst();
        return found.map(Problem::text).orElse("");
    }
}
