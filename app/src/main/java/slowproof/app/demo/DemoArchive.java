package slowproof.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import slowproof.archive.Archive;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;
import slowproof.archive.RecordedEvent;
import slowproof.archive.desk.CardKind;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.TrialEvents;
import slowproof.trial.Trial;

/**
 * Fills an archive with the invented scenario. The readings are the same everywhere, their seeds being written in the code;
 * the days are counted back from today.
 */
public final class DemoArchive {
    /** With this the id of every invented trial begins; ids of other trials have no o. */
    public static final String ID_BEGINNING = "demo";

    /** With this the notes of every invented trial begin. */
    static final String INVENTED = "Invented: no real plant, sensor or material.";

    private static final Duration BETWEEN_EVENTS = Duration.ofSeconds(12);
    private static final int FIRST_SHOWN_DAYS_AGO = 3;

    private final Archive archive;
    private final LocalDate today;
    private final ZoneId zone;

    private DemoArchive(Archive archive, LocalDate today, ZoneId zone) {
        this.archive = archive;
        this.today = today;
        this.zone = zone;
    }

    /**
     * Fills an archive.
     *
     * @param archive archive without trials
     * @param shown the trial that the demo has printed
     * @param today day from which the others are counted back
     * @param zone time zone of the bench
     */
    public static void fill(Archive archive, Trial shown, LocalDate today, ZoneId zone) {
        new DemoArchive(archive, today, zone).fill(shown);
    }

    private void fill(Trial shown) {
        List<DemoCase> cases = new ArrayList<>(DemoTrials.all());
        cases.addAll(DemoRecordings.all(archive));
        List<NewEvent> events = new ArrayList<>(TrialEvents.of(shown));
        events.add(DemoCase.fact(FactName.NOTES, INVENTED));
        cases.add(new DemoCase(FIRST_SHOWN_DAYS_AGO, events));
        Map<String, List<RecordedEvent>> trials = new LinkedHashMap<>();
        for (DemoCase one : cases) {
            trials.put(id(trials.size()), recorded(one));
        }
        archive.takeIn(trials);
        DemoCards cards = new DemoCards(today, zone);
        List<Event> felt =
                recorded(cases.get(0)).stream().map(RecordedEvent::event).toList();
        archive.cards().takeIn(CardKind.QUESTION, cards.questions(id(0), felt));
        archive.cards()
                .takeIn(CardKind.SAMPLE, cards.samples(id(0), id(DemoTrials.FABRIC_SENT), id(DemoTrials.FILM_SENT)));
    }

    private static String id(int number) {
        return ID_BEGINNING + String.format(Locale.ROOT, "%08d", number + 1);
    }

    private List<RecordedEvent> recorded(DemoCase one) {
        Instant at = today.minusDays(one.daysAgo()).atTime(8, 0).atZone(zone).toInstant();
        List<RecordedEvent> recorded = new ArrayList<>();
        recorded.add(new RecordedEvent(new Event(1, at, EventKind.STARTED, Map.of()), ""));
        for (NewEvent event : one.events()) {
            at = at.plus(BETWEEN_EVENTS);
            recorded.add(new RecordedEvent(new Event(recorded.size() + 1L, at, event.kind(), event.fields()), ""));
        }
        return recorded;
    }
}
