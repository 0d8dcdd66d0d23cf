package slowproof.app.web;

import java.util.List;
import slowproof.wording.Wording;

/**
 * What every page needs around its content.
 *
 * @param wording language of the reader
 * @param show figures of the reader
 * @param place which page it is: start, bench, trial, trials, or empty
 * @param title title of the page
 * @param path address of the page, for the change of language
 * @param query what follows the path, beginning with its question mark; empty for nothing
 * @param reader who reads it
 * @param invented whether the archive holds the invented scenario of the demo, which the page says then
 * @param problems what is wrong with the form on it
 */
public record Page(
        Wording wording,
        Show show,
        String place,
        String title,
        String path,
        String query,
        Reader reader,
        boolean invented,
        List<Problem> problems) {
    /** Copies the problems. */
    public Page {
        problems = List.copyOf(problems);
    }

    /** Returns the address of an asset. */
    public String asset(String name) {
        return Assets.address(name);
    }

    /** Returns the address of the same page in another language. */
    public String in(String language) {
        return path + query + (query.isEmpty() ? "?" : "&") + "language=" + language;
    }

    /** Returns a sentence. */
    public String say(String key, Object... arguments) {
        return wording.text(key, arguments);
    }

    /** Returns the language as HTML names it. */
    public String language() {
        return wording.locale().getLanguage();
    }

    /** Returns what is wrong with a field, or empty. */
    public String problem(String field) {
        return Problem.at(problems, field);
    }
}
