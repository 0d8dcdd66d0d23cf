package slowproof.app.web;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import slowproof.archive.sheet.ReleasedAnswer;
import slowproof.wording.Wording;

/**
 * The release of a written answer as its form was filled in.
 *
 * @param person name of the person who releases
 * @param date day as typed
 * @param reason why it supersedes another
 */
public record AnswerRelease(String person, String date, String reason) {
    private static final int LONGEST_NAME = 120;
    private static final int LONGEST_REASON = 600;

    /** Returns an empty form with the day of today. */
    static AnswerRelease empty(String today) {
        return new AnswerRelease("", today, "");
    }

    /** Returns what was sent, blanks and line ends as single blanks. */
    static AnswerRelease sent(Visit visit) {
        return new AnswerRelease(
                plain(visit.field("released_by")), plain(visit.field("released_on")), plain(visit.field("reason")));
    }

    private static String plain(String text) {
        return text.replaceAll("\\s+", " ").strip();
    }

    /** Returns it as the record keeps it. */
    ReleasedAnswer.Release kept(boolean supersedes) {
        return new ReleasedAnswer.Release(person, date, supersedes ? reason : "");
    }

    /**
     * Returns what keeps it from being released, none when nothing does.
     *
     * @param subject what the answer is and speaks of
     * @param choice what was chosen
     * @param released what was released of the trial
     * @param today the day, ISO 8601
     * @param wording language of the sentences
     */
    List<Problem> problems(
            ReleasedAnswer.Subject subject,
            AnswerChoice choice,
            List<ReleasedAnswer> released,
            String today,
            Wording wording) {
        List<Problem> problems = new ArrayList<>();
        if (person.isEmpty()) {
            problems.add(new Problem("released_by", wording.text("issue.no_person")));
        } else if (person.length() > LONGEST_NAME) {
            problems.add(new Problem("released_by", wording.text("issue.long", person.length(), LONGEST_NAME)));
        }
        ReleasedAnswer superseded = choice.superseded(released);
        day(superseded, today, wording).ifPresent(text -> problems.add(new Problem("released_on", text)));
        supersedes(superseded, subject, choice, released, wording)
                .ifPresent(text -> problems.add(new Problem("release_supersedes", text)));
        if (superseded != null && reason.isEmpty()) {
            problems.add(new Problem("reason", wording.text("issue.no_reason", superseded.number())));
        } else if (reason.length() > LONGEST_REASON) {
            problems.add(new Problem("reason", wording.text("issue.long", reason.length(), LONGEST_REASON)));
        }
        return problems;
    }

    private Optional<String> day(@Nullable ReleasedAnswer superseded, String today, Wording wording) {
        if (date.isEmpty()) {
            return Optional.of(wording.text("issue.no_day", today));
        }
        LocalDate day;
        try {
            day = LocalDate.parse(date);
        } catch (DateTimeException e) {
            return Optional.of(wording.text("typed.not_a_date", date));
        }
        if (day.isAfter(LocalDate.parse(today))) {
            return Optional.of(wording.text("issue.later_day", date, today));
        }
        // days of ISO 8601 are ordered as their letters are
        return superseded != null && date.compareTo(superseded.release().date()) < 0
                ? Optional.of(wording.text(
                        "issue.earlier_day",
                        date,
                        superseded.number(),
                        superseded.release().date()))
                : Optional.empty();
    }

    private static Optional<String> supersedes(
            @Nullable ReleasedAnswer superseded,
            ReleasedAnswer.Subject subject,
            AnswerChoice choice,
            List<ReleasedAnswer> released,
            Wording wording) {
        if (superseded == null) {
            if (!choice.supersedes().isEmpty()) {
                return Optional.of(wording.text("issue.no_such", choice.supersedes()));
            }
            // lines differ from one another; of the trial alone there is one answer a language
            return released.stream()
                    .filter(answer -> answer.stands()
                            && !subject.hasLine()
                            && answer.subject().isLike(subject))
                    .findFirst()
                    .map(answer -> wording.text("issue.stands_already", answer.number()));
        }
        if (superseded.supersededBy() != null) {
            return Optional.of(
                    wording.text("issue.superseded_already", superseded.number(), superseded.supersededBy()));
        }
        return superseded.subject().isLike(subject)
                ? Optional.empty()
                : Optional.of(wording.text("issue.unlike", superseded.number()));
    }
}
