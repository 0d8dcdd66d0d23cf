package slowproof.app.web;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import slowproof.archive.desk.Question;
import slowproof.trial.evidence.Assessment;
import slowproof.trial.evidence.Inquiry;
import slowproof.trial.evidence.Steps;
import slowproof.trial.evidence.TestStep;
import slowproof.trial.note.Quantity;
import slowproof.wording.InquiryReply;
import slowproof.wording.Wording;

/**
 * What stands beside a question: the evidence that was found and the reply it gives.
 *
 * @param asked what was asked as one sentence, empty while it is not understood
 * @param pieces evidence, the nearest first
 * @param chosen number of the evidence that the reply rests on, from 0
 * @param replies reply in each language, the reader's first
 * @param steps what to test next, a sentence a step
 * @param time time at the bench for that, empty when there is nothing to test
 */
public record QuestionView(
        String asked, List<Piece> pieces, int chosen, List<Reply> replies, List<String> steps, String time) {
    private static final double STROKE_MM = 900;

    /** Copies the lists. */
    public QuestionView {
        pieces = List.copyOf(pieces);
        replies = List.copyOf(replies);
        steps = List.copyOf(steps);
    }

    /**
     * One piece of evidence.
     *
     * @param evidence what was found
     * @param title title of the trial
     * @param answer the answer, one or two sentences
     * @param gaps what is not covered
     * @param style class name of the style sheet
     * @param strip drawing of asked against tested speeds
     */
    public record Piece(
            QuestionEvidence evidence,
            String title,
            List<String> answer,
            List<String> gaps,
            String style,
            SpeedStrip strip) {
        /** Copies the lists. */
        public Piece {
            answer = List.copyOf(answer);
            gaps = List.copyOf(gaps);
        }
    }

    /**
     * A reply to send.
     *
     * @param language en or de
     * @param text the reply
     */
    public record Reply(String language, String text) {
        /** Returns the address that opens it in the mail program. */
        public String mail() {
            return "mailto:?body="
                    + URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
        }
    }

    /**
     * Returns the same with the replies that somebody changed.
     *
     * @param before what stood beside the question when they were sent: a reply that is still its own is none of theirs
     * @param sent text that was sent, by language
     */
    QuestionView withChanged(QuestionView before, UnaryOperator<String> sent) {
        Map<String, String> own = new HashMap<>();
        before.replies.forEach(reply -> own.put(reply.language(), reply.text().strip()));
        List<Reply> kept = new ArrayList<>();
        for (Reply reply : replies) {
            String text = sent.apply(reply.language()).replace("\r\n", "\n").strip();
            kept.add(text.equals(own.get(reply.language())) ? reply : new Reply(reply.language(), text));
        }
        return new QuestionView(asked, pieces, chosen, kept, steps, time);
    }

    static QuestionView of(@Nullable Inquiry inquiry, int wanted, Site site, Wording wording) {
        if (inquiry == null) {
            return new QuestionView("", List.of(), 0, List.of(), List.of(), "");
        }
        List<QuestionEvidence> found =
                QuestionEvidence.of(inquiry, site.summaries().index());
        int chosen = wanted >= 0 && wanted < found.size() ? wanted : 0;
        List<Piece> pieces = new ArrayList<>();
        for (QuestionEvidence one : found) {
            pieces.add(piece(one, site, wording));
        }
        List<TestStep> steps = found.isEmpty()
                ? Steps.ladder(inquiry, STROKE_MM)
                : found.get(chosen).said().steps();
        List<Reply> replies = new ArrayList<>();
        Locale other = wording.locale().getLanguage().equals("de") ? Locale.ENGLISH : Locale.GERMAN;
        for (Locale language : List.of(wording.locale(), other)) {
            Wording own = Wording.of(language, wording.units()).withPages();
            QuestionEvidence basis = found.isEmpty() ? null : found.get(chosen);
            replies.add(new Reply(language.getLanguage(), reply(basis, inquiry, steps, site, own)));
        }
        Quantity time = InquiryReply.time(steps);
        return new QuestionView(
                InquiryReply.asked(inquiry, wording),
                pieces,
                chosen,
                replies,
                InquiryReply.steps(steps, wording),
                steps.isEmpty() ? "" : wording.quantity(time));
    }

    private static String reply(
            @Nullable QuestionEvidence basis, Inquiry inquiry, List<TestStep> steps, Site site, Wording wording) {
        return basis == null
                ? InquiryReply.of(null, inquiry, "", "", steps, wording)
                : InquiryReply.of(
                        basis.said(), inquiry, title(basis, site, wording), day(basis, site, wording), steps, wording);
    }

    private static String title(QuestionEvidence one, Site site, Wording wording) {
        return TrialPage.title(
                one.tried().entry().title(),
                one.tried().surface().material(),
                one.tried().entry().startedAt(),
                wording,
                site.zone());
    }

    private static String day(QuestionEvidence one, Site site, Wording wording) {
        return new Show(wording, site.zone()).day(one.tried().entry().changedAt());
    }

    private static Piece piece(QuestionEvidence one, Site site, Wording wording) {
        String title = title(one, site, wording);
        return new Piece(
                one,
                title,
                InquiryReply.answer(one.said(), title, day(one, site, wording), wording),
                InquiryReply.gaps(one.said(), wording),
                style(one.said().verdict()),
                SpeedStrip.of(one.said()));
    }

    private static String style(Assessment.Verdict verdict) {
        return switch (verdict) {
            case HOLDS -> "good";
            case DOES_NOT_HOLD -> "bad";
            case OPEN -> "open";
            case NOT_COVERED -> "none";
        };
    }

    /** Returns the fields of the event that keeps an answer. */
    Map<String, String> kept(String english, String german, String program) {
        boolean any = !pieces.isEmpty();
        return Map.of(
                "en",
                english,
                "de",
                german,
                "verdict",
                any ? pieces.get(chosen).evidence().said().verdict().key() : "none",
                "program",
                program,
                "evidence",
                any ? pieces.get(chosen).evidence().tried().entry().id() : "");
    }

    /** Returns the last answer that was kept, or null. */
    static Question.@Nullable Answer last(Question question) {
        List<Question.Answer> answers = question.answers();
        return answers.isEmpty() ? null : answers.get(answers.size() - 1);
    }
}
