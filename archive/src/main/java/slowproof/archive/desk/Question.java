package slowproof.archive.desk;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * A question as its events leave it. Events: {@code asked} with everything that was typed (again when it was corrected),
 * {@code answered} with the texts and what they rest on, {@code sent}, {@code reopened}, {@code trial} with a trial that
 * was made for it.
 *
 * @param id id of the card
 * @param number its number
 * @param askedAt when it was asked
 * @param typed what was typed, by name of the field, see {@link #FIELDS}
 * @param answers what was answered, the last one last
 * @param sent whether the last answer went out
 * @param trials trials that were made for it
 */
public record Question(
        String id,
        int number,
        Instant askedAt,
        Map<String, String> typed,
        List<Answer> answers,
        boolean sent,
        Set<String> trials) {
    /** Kind of the event that carries what was typed. */
    public static final String ASKED = "asked";

    /** Kind of the event that carries an answer. */
    public static final String ANSWERED = "answered";

    /** Kind of the event that says the answer went out. */
    public static final String SENT = "sent";

    /** Kind of the event that opens the question again. */
    public static final String REOPENED = "reopened";

    /** Kind of the event that names a trial made for it. */
    public static final String TRIAL = "trial";

    /** Names of the fields of a question. */
    public static final List<String> FIELDS = List.of(
            "material",
            "slowest",
            "fastest",
            "gentlest",
            "hardest",
            "piece",
            "tolerance",
            "asked_by",
            "due",
            "text",
            "mark");

    /**
     * An answer as it was kept.
     *
     * @param at when
     * @param verdict word of the verdict
     * @param english text in English
     * @param german text in German
     * @param program version of the program that found the evidence
     * @param evidence ids of the trials it rests on
     */
    public record Answer(
            Instant at, String verdict, String english, String german, String program, List<String> evidence) {
        /** Copies the list. */
        public Answer {
            evidence = List.copyOf(evidence);
        }
    }

    /** Copies the collections. */
    public Question {
        typed = Map.copyOf(typed);
        answers = List.copyOf(answers);
        trials = Set.copyOf(trials);
    }

    /**
     * Adds up the events of a question.
     *
     * @param id id of the card
     * @param number its number
     * @param events all of them, in order, at least one
     */
    public static Question of(String id, int number, List<CardEvent> events) {
        Map<String, String> typed = Map.of();
        List<Answer> answers = new ArrayList<>();
        Set<String> trials = new LinkedHashSet<>();
        boolean sent = false;
        for (CardEvent event : events) {
            switch (event.kind()) {
                case ASKED -> typed = event.fields();
                case ANSWERED -> {
                    answers.add(answer(event));
                    sent = false;
                }
                case SENT -> sent = true;
                case REOPENED -> sent = false;
                case TRIAL -> trials.add(event.text("trial"));
                default -> throw new IllegalStateException("a question has no event " + event.kind());
            }
        }
        return new Question(id, number, events.get(0).at(), typed, answers, sent, trials);
    }

    private static Answer answer(CardEvent event) {
        String evidence = event.text("evidence");
        return new Answer(
                event.at(),
                event.text("verdict"),
                event.text("en"),
                event.text("de"),
                event.text("program"),
                evidence.isEmpty() ? List.of() : List.of(evidence.split(" ", -1)));
    }

    /** Returns what was typed into a field, empty for nothing. */
    public String field(String name) {
        return typed.getOrDefault(name, "");
    }

    CardFace face() {
        String title = String.join(", ", field("material"), field("asked_by")).replaceAll("^, |, $", "");
        String words = String.join("\n", typed.values());
        return new CardFace(!sent, field("due"), title, words, trials);
    }
}
