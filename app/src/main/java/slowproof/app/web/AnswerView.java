package slowproof.app.web;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.archive.sheet.ReleasedAnswer;

/**
 * What the page of the written answer shows.
 *
 * @param id trial
 * @param title its title
 * @param seen number of the last event that the page rests on
 * @param token name of the form, so that sending it twice counts once
 * @param said the answer in plain words, a line a surface; none while the trial has no passes that count
 * @param line the line that it speaks of too, or null for the trial alone
 * @param choice language, paper and form
 * @param release what stands in the form of the release
 * @param released what was released, the last first
 */
public record AnswerView(
        String id,
        String title,
        long seen,
        String token,
        List<Answers.Line> said,
        @Nullable Line line,
        AnswerChoice choice,
        AnswerRelease release,
        List<ReleasedAnswer> released) {
    /**
     * A line.
     *
     * @param parameters what describes it in an address, by name
     * @param query the same as the end of an address
     * @param sentences what it is, in words
     */
    public record Line(Map<String, String> parameters, String query, List<String> sentences) {}

    /** Copies the lists. */
    public AnswerView {
        said = List.copyOf(said);
        released = List.copyOf(released);
    }

    /** Returns true when there is something to answer with. */
    public boolean hasAnswer() {
        return !said.isEmpty();
    }

    /** Returns the end of the addresses that speak of the same line, empty for the trial alone. */
    public String query() {
        return line == null ? "" : Objects.requireNonNull(line).query();
    }

    /** Returns the released answers that no other has superseded and that this one can. */
    public List<ReleasedAnswer> standing() {
        return released.stream()
                .filter(answer -> answer.stands() && answer.subject().hasLine() == (line != null))
                .toList();
    }
}
