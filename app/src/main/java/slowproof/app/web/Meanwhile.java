package slowproof.app.web;

import java.time.ZoneId;
import java.util.List;
import java.util.function.Predicate;
import slowproof.archive.ChangedMeanwhileException;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.sheet.FactName;
import slowproof.wording.Wording;

/**
 * What others recorded of a trial between the moment at which a page was made and the moment at which its form came
 * back. Whoever is second is told; nothing is recorded on a state that its sender has not seen.
 *
 * @param events what was recorded meanwhile, in order
 */
record Meanwhile(List<Event> events) {
    private static final int MOST_ATTEMPTS = 10;
    private static final int MOST_TOLD = 8;
    private static final String RANGE = "[0-9]{1,18}-[0-9]{1,18}";
    private static final String QUERY = "meanwhile";

    /** Nothing was recorded meanwhile. */
    static final Meanwhile NOTHING = new Meanwhile(List.of());

    /** Copies the events. */
    Meanwhile {
        events = List.copyOf(events);
    }

    /** Returns the events of a trial that a visitor had not seen. */
    static Meanwhile of(List<Event> events, Visit visit) {
        long seen = visit.seen();
        return new Meanwhile(events.stream().filter(event -> event.seq() > seen).toList());
    }

    /** Returns the events of a trial that a visitor had seen. */
    static List<Event> before(List<Event> events, Visit visit) {
        long seen = visit.seen();
        return events.stream().filter(event -> event.seq() <= Math.max(seen, 1)).toList();
    }

    /** Returns what the address of the page asks to be told, as {@link #query} writes it. */
    static Meanwhile told(List<Event> events, Visit visit) {
        String range = visit.context().queryParam(QUERY);
        if (range == null || !range.matches(RANGE)) {
            return NOTHING;
        }
        long first = Long.parseLong(range.substring(0, range.indexOf('-')));
        long last = Long.parseLong(range.substring(range.indexOf('-') + 1));
        return new Meanwhile(events.stream()
                .filter(event -> event.seq() >= first && event.seq() <= last)
                .filter(event -> event.kind() == EventKind.FACT)
                .toList());
    }

    /** Returns the part of an address that makes the page tell this. */
    String query() {
        return QUERY + "=" + events.get(0).seq() + "-"
                + events.get(events.size() - 1).seq();
    }

    boolean isEmpty() {
        return events.isEmpty();
    }

    /** Returns only those that matter. */
    Meanwhile with(Predicate<Event> mattering) {
        return new Meanwhile(events.stream().filter(mattering).toList());
    }

    /** Returns what happened in words, one sentence an event, the latest ones only when there are many. */
    List<String> told(Wording wording, ZoneId zone) {
        Show show = new Show(wording, zone);
        return events.stream()
                .skip(Math.max(0, events.size() - MOST_TOLD))
                .map(event -> wording.text(
                        event.who().isEmpty() ? "meanwhile.event" : "meanwhile.event_by",
                        show.time(event.at()),
                        what(event, wording),
                        event.who()))
                .toList();
    }

    private static String what(Event event, Wording wording) {
        return switch (event.kind()) {
            case STARTED -> wording.text("meanwhile.started");
            case FACT -> {
                FactName name = FactName.of(event.text("name")).orElse(FactName.NOTES);
                String label = wording.text("fact." + name.key());
                yield event.text("text").isBlank()
                        ? wording.text("meanwhile.fact_emptied", label)
                        : wording.text("meanwhile.fact", label, FactForm.choice(name, event.text("text"), wording));
            }
            case SERIES -> wording.text("meanwhile.series", event.text("speed"), event.text("material"));
            case READING -> wording.text("meanwhile.reading", event.text("reading"));
            case COMMENT -> wording.text("meanwhile.comment", event.text("text"));
            case SPOILED ->
                event.text("text").isEmpty()
                        ? wording.text("meanwhile.counts")
                        : wording.text("meanwhile.spoiled", event.text("text"));
            case PHOTO -> wording.text("meanwhile.photo", event.text("name"));
            case LOG -> wording.text("meanwhile.log", event.text("name"));
            case RECORDINGS -> wording.text("meanwhile.recordings");
            case ANSWER -> wording.text("meanwhile.answer", event.text("released_by"));
            case UNDO -> wording.text("meanwhile.undo");
        };
    }

    /**
     * Does work that looks at a trial and then records on what it saw. When somebody records between the two, the work
     * is done anew on what there is then.
     */
    static void steadily(Work work) throws Exception {
        for (int attempt = 1; ; attempt++) {
            try {
                work.run();
                return;
            } catch (ChangedMeanwhileException e) {
                if (attempt == MOST_ATTEMPTS) {
                    throw e;
                }
            }
        }
    }

    /** Work that may be done again as long as it has recorded nothing. */
    interface Work {
        void run() throws Exception;
    }
}
