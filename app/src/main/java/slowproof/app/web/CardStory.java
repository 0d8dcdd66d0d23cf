package slowproof.app.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import slowproof.archive.desk.CardEvent;
import slowproof.wording.Wording;

/** Says what was recorded of a sample or a question. */
final class CardStory {
    private CardStory() {}

    /** Says what happened when and by whom, one sentence an event. */
    static List<String> told(List<CardEvent> events, Show show, Wording wording, Function<CardEvent, String> what) {
        List<String> told = new ArrayList<>();
        for (CardEvent event : events) {
            String by = event.text("by");
            String said = what.apply(event);
            told.add(wording.text(
                    by.isEmpty() ? "meanwhile.event" : "meanwhile.event_by",
                    show.time(event.at()),
                    // the sentence ends with a stop of its own
                    said.endsWith(".") ? said.substring(0, said.length() - 1) : said,
                    by));
        }
        return told;
    }

    /**
     * Names the fields that an event with everything typed changed, with what they say then.
     *
     * @param event the event
     * @param all events of the card
     * @param fields names of the fields
     * @param words where the words for the first event (by its kind) and for no change ({@code same}) stand
     * @param label what a field is called
     */
    static String typed(
            CardEvent event,
            List<CardEvent> all,
            List<String> fields,
            Wording wording,
            String words,
            UnaryOperator<String> label) {
        Map<String, String> before = all.stream()
                .filter(one -> one.kind().equals(event.kind()) && one.seq() < event.seq())
                .reduce((first, second) -> second)
                .map(CardEvent::fields)
                .orElse(Map.of());
        if (before.isEmpty()) {
            return wording.text(words + "." + event.kind());
        }
        List<String> changes = new ArrayList<>();
        for (String name : fields) {
            String now = inOneLine(event.text(name));
            if (!Objects.equals(now, inOneLine(before.getOrDefault(name, "")))) {
                changes.add(wording.text(
                        now.isEmpty() ? "meanwhile.fact_emptied" : "meanwhile.fact", label.apply(name), now));
            }
        }
        return changes.isEmpty() ? wording.text(words + ".same") : String.join("; ", changes);
    }

    private static String inOneLine(String text) {
        return text.replace("\n", " / ");
    }
}
