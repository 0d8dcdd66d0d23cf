package slowproof.app.web;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import slowproof.archive.sheet.ReleasedAnswer;
import slowproof.report.answer.Paper;

/**
 * How a written answer is to be: language, paper and form of its file, and which released one it supersedes.
 *
 * @param language language of its sentences, en or de
 * @param paper size of its page, a4 or letter
 * @param form form of its file, pdf or html
 * @param supersedes number of the released answer that it supersedes, empty for none
 */
public record AnswerChoice(String language, String paper, String form, String supersedes) {
    /** Languages to choose from. */
    public static final List<String> LANGUAGES = List.of("en", "de");

    /** Sizes of the page to choose from. */
    public static final List<String> PAPERS = List.of("a4", "letter");

    /** Forms of the file to choose from. */
    public static final List<String> FORMS = List.of("pdf", "html");

    /** Fields; the language has no field of that name, because an address with it would change that of the pages. */
    private static final Map<String, List<String>> FIELDS =
            Map.of("written_in", LANGUAGES, "paper", PAPERS, "form", FORMS);

    /**
     * Returns what was chosen; what was not, or is not to be had, is as usual.
     *
     * @param sent the text of a field by its name
     * @param language language of the reader
     * @param usual number of the answer that is superseded unless something else was chosen
     */
    static AnswerChoice of(Function<String, @Nullable String> sent, String language, String usual) {
        String supersedes = sent.apply("supersedes");
        return new AnswerChoice(
                chosen(sent, "written_in", language),
                chosen(sent, "paper", "a4"),
                chosen(sent, "form", "pdf"),
                supersedes == null ? usual : supersedes.strip());
    }

    private static String chosen(Function<String, @Nullable String> sent, String field, String usual) {
        String text = sent.apply(field);
        return text != null && FIELDS.getOrDefault(field, List.of()).contains(text) ? text : usual;
    }

    Locale locale() {
        return language.equals("de") ? Locale.GERMAN : Locale.ENGLISH;
    }

    boolean html() {
        return form.equals("html");
    }

    Paper size() {
        return paper.equals("letter") ? Paper.LETTER : Paper.A4;
    }

    /** Returns the released answer that is superseded, or null when none was chosen or there is no such one. */
    @Nullable
    ReleasedAnswer superseded(List<ReleasedAnswer> released) {
        return released.stream()
                .filter(answer -> String.valueOf(answer.number()).equals(supersedes))
                .findFirst()
                .orElse(null);
    }
}
