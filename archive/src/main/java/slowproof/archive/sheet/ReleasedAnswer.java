package slowproof.archive.sheet;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;

/**
 * A written answer that a person released. Its file is kept as it was released, whatever becomes of the trial; no undo
 * takes it back, only a later one supersedes it.
 *
 * @param number its number among the released answers of the trial, from 1
 * @param seq number of its event: it rests on the events before
 * @param at when it was recorded
 * @param who who recorded it, empty when unknown
 * @param sha256 SHA-256 of the file
 * @param name name of the file
 * @param bytes size of the file in bytes
 * @param subject what it is and speaks of
 * @param release who released it
 * @param supersedes number of the answer that it supersedes, or null
 * @param supersededBy number of the answer that supersedes it, or null while it stands
 * @param outdated true when something that counts was recorded of the trial since
 */
public record ReleasedAnswer(
        int number,
        long seq,
        Instant at,
        String who,
        String sha256,
        String name,
        long bytes,
        Subject subject,
        Release release,
        @Nullable Integer supersedes,
        @Nullable Integer supersededBy,
        boolean outdated) {
    /** Kinds of event that change nothing of what an answer rests on. */
    private static final Set<EventKind> BESIDE = Set.of(EventKind.ANSWER, EventKind.PHOTO);

    private static final String NUMBER = "[1-9][0-9]{0,5}";

    /**
     * What an answer is and speaks of.
     *
     * @param language language of its sentences, en or de
     * @param form form of the file, pdf or html
     * @param material surface of the line that it speaks of, empty for the trial alone
     * @param line the line as the end of an address, empty for the trial alone
     */
    public record Subject(String language, String form, String material, String line) {
        /** Returns true when it speaks of a line as well. */
        public boolean hasLine() {
            return !line.isEmpty();
        }

        /** Returns the language as a key of its name; a record from elsewhere may say anything. */
        public String languageKey() {
            return language.equals("de") ? "de" : "en";
        }

        /** Returns the form of the file as a key of its name. */
        public String formKey() {
            return form.equals("html") ? "html" : "pdf";
        }

        /** Returns true when one can supersede the other: the same language, both with or both without a line. */
        public boolean isLike(Subject other) {
            return language.equals(other.language) && hasLine() == other.hasLine();
        }
    }

    /**
     * Who released an answer.
     *
     * @param person name as typed
     * @param date day as ISO 8601
     * @param reason why it supersedes another, empty when it supersedes none
     */
    public record Release(String person, String date, String reason) {}

    /**
     * Returns the event of a release; the file has been kept.
     *
     * @param sha256 SHA-256 of the file
     * @param name name of the file
     * @param bytes size of the file in bytes
     * @param subject what it is and speaks of
     * @param release who released it
     * @param supersedes number of the answer that it supersedes, or null
     */
    public static NewEvent releasing(
            String sha256, String name, long bytes, Subject subject, Release release, @Nullable Integer supersedes) {
        return NewEvent.of(
                EventKind.ANSWER,
                "sha256",
                sha256,
                "name",
                name,
                "bytes",
                String.valueOf(bytes),
                "language",
                subject.language(),
                "form",
                subject.form(),
                "material",
                subject.material(),
                "line",
                subject.line(),
                "released_by",
                release.person(),
                "released_on",
                release.date(),
                "reason",
                release.reason(),
                "supersedes",
                supersedes == null ? "" : String.valueOf(supersedes));
    }

    /** Returns the released answers of a trial in the order of release, from all its events. */
    public static List<ReleasedAnswer> of(List<Event> events) {
        List<ReleasedAnswer> answers = new ArrayList<>();
        for (Event event : events) {
            if (event.kind() == EventKind.ANSWER) {
                Integer supersedes = number(event.text("supersedes"), answers.size());
                if (supersedes != null) {
                    int at = supersedes - 1;
                    answers.set(at, answers.get(at).supersededBy(answers.size() + 1));
                }
                answers.add(read(event, answers.size() + 1, supersedes));
            } else if (!BESIDE.contains(event.kind())) {
                answers.replaceAll(ReleasedAnswer::nowOutdated);
            }
        }
        return answers;
    }

    /** An event from elsewhere may say anything: only what was released before can be superseded. */
    private static @Nullable Integer number(String text, int most) {
        Integer number = text.matches(NUMBER) ? Integer.valueOf(text) : null;
        return number == null || number > most ? null : number;
    }

    private static ReleasedAnswer read(Event event, int number, @Nullable Integer supersedes) {
        String bytes = event.text("bytes");
        return new ReleasedAnswer(
                number,
                event.seq(),
                event.at(),
                event.who(),
                event.text("sha256"),
                event.text("name"),
                bytes.matches("[0-9]{1,15}") ? Long.parseLong(bytes) : 0,
                new Subject(event.text("language"), event.text("form"), event.text("material"), event.text("line")),
                new Release(event.text("released_by"), event.text("released_on"), event.text("reason")),
                supersedes,
                null,
                false);
    }

    private ReleasedAnswer supersededBy(int later) {
        return new ReleasedAnswer(
                number, seq, at, who, sha256, name, bytes, subject, release, supersedes, later, outdated);
    }

    private ReleasedAnswer nowOutdated() {
        return new ReleasedAnswer(
                number, seq, at, who, sha256, name, bytes, subject, release, supersedes, supersededBy, true);
    }

    /** Returns true while no other supersedes it. */
    public boolean stands() {
        return supersededBy == null;
    }
}
