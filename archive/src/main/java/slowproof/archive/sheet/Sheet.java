package slowproof.archive.sheet;

import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;
import slowproof.archive.typed.DecimalMark;
import slowproof.archive.typed.LengthUnit;
import slowproof.archive.typed.SpeedUnit;
import slowproof.archive.typed.Typed;

/**
 * A trial as its events leave it: everything as typed, what was taken back left out.
 *
 * @param id id of the trial
 * @param startedAt when it was started
 * @param changedAt when the last event was recorded
 * @param lastSeq number of the last event
 * @param facts facts
 * @param series series in order
 * @param photos photos in order
 * @param recordings recordings, {@link Recordings#NONE} for a trial of typed readings alone
 * @param lastStep the last step at the bench that still stands, or null
 * @param lastUndo the undo that was the very last event, or null when something else was recorded since
 */
public record Sheet(
        String id,
        Instant startedAt,
        Instant changedAt,
        long lastSeq,
        Facts facts,
        List<SheetSeries> series,
        List<Photo> photos,
        Recordings recordings,
        @Nullable Event lastStep,
        @Nullable Event lastUndo) {
    private static final Set<EventKind> STEPS =
            Set.of(EventKind.READING, EventKind.SERIES, EventKind.COMMENT, EventKind.SPOILED);

    /** Copies the lists. */
    public Sheet {
        series = List.copyOf(series);
        photos = List.copyOf(photos);
    }

    /**
     * Adds up the events of a trial.
     *
     * @param id id of the trial
     * @param events all of them, in order, at least one
     */
    public static Sheet of(String id, List<Event> events) {
        Set<Long> undone = undone(events);
        Folding folding = new Folding();
        Event lastStep = null;
        for (Event event : events) {
            if (undone.contains(event.seq())) {
                continue;
            }
            folding.take(event);
            if (STEPS.contains(event.kind())) {
                lastStep = event;
            }
        }
        Event last = events.get(events.size() - 1);
        return new Sheet(
                id,
                events.get(0).at(),
                last.at(),
                last.seq(),
                new Facts(folding.facts),
                folding.finished(),
                folding.photos,
                new Recordings(folding.trial, folding.logs),
                lastStep,
                last.kind() == EventKind.UNDO ? last : null);
    }

    /** From the last event back, since an undo may itself be taken back by a later one. */
    private static Set<Long> undone(List<Event> events) {
        Set<Long> undone = new HashSet<>();
        for (int i = events.size() - 1; i >= 0; i--) {
            Event event = events.get(i);
            if (event.kind() == EventKind.UNDO && !undone.contains(event.seq())) {
                undone.add(Long.parseLong(event.text("seq")));
            }
        }
        return undone;
    }

    /** Returns the series that is being run, or empty before the first. */
    public Optional<SheetSeries> current() {
        return series.isEmpty() ? Optional.empty() : Optional.of(series.get(series.size() - 1));
    }

    /** Returns the title, or empty. */
    public String title() {
        return facts.text(FactName.TITLE);
    }

    /** Returns everything a person may look for in the list of trials. */
    public String words() {
        StringBuilder words = new StringBuilder();
        for (Map.Entry<FactName, Typed> fact : facts.all()) {
            if (fact.getKey().kind() == FactName.Kind.TEXT) {
                words.append(fact.getValue().text()).append('\n');
            }
        }
        for (SheetSeries one : series) {
            words.append(one.material()).append('\n');
            for (SheetReading reading : one.readings()) {
                words.append(reading.comment())
                        .append('\n')
                        .append(reading.spoiled())
                        .append('\n');
            }
        }
        return words.toString();
    }

    /** Returns the event that notes a fact. */
    public static NewEvent noting(FactName name, Typed typed) {
        return NewEvent.of(
                EventKind.FACT,
                "name",
                name.key(),
                "text",
                typed.text(),
                "mark",
                typed.mark().key(),
                "length_unit",
                typed.lengthUnit().key(),
                "speed_unit",
                typed.speedUnit().key());
    }

    /** Returns the event that starts a series; the habits are those of the speed. */
    public static NewEvent starting(
            String material, Typed speed, String acceleration, String from, String to, boolean onward) {
        return NewEvent.of(
                EventKind.SERIES,
                "material",
                material,
                "speed",
                speed.text(),
                "acceleration",
                acceleration,
                "from",
                from,
                "to",
                to,
                "onward",
                String.valueOf(onward),
                "mark",
                speed.mark().key(),
                "length_unit",
                speed.lengthUnit().key(),
                "speed_unit",
                speed.speedUnit().key());
    }

    /** Returns the event of a reading; an empty reference means the target. */
    public static NewEvent reading(Typed reading, String reference, boolean start) {
        return NewEvent.of(
                EventKind.READING,
                "reading",
                reading.text(),
                "reference",
                reference,
                "start",
                String.valueOf(start),
                "mark",
                reading.mark().key(),
                "length_unit",
                reading.lengthUnit().key());
    }

    private static Typed typed(Event event, String field) {
        return new Typed(
                event.text(field),
                DecimalMark.of(event.text("mark")),
                LengthUnit.of(event.text("length_unit")),
                SpeedUnit.of(event.text("speed_unit")));
    }

    /** What has been added up so far; used by one thread and dropped. */
    private static final class Folding {
        private final Map<FactName, Typed> facts = new EnumMap<>(FactName.class);
        private final List<SheetSeries> series = new ArrayList<>();
        private final List<List<SheetReading>> readings = new ArrayList<>();
        private final List<Photo> photos = new ArrayList<>();
        private final Map<String, String> logs = new LinkedHashMap<>();
        private String trial = "";

        void take(Event event) {
            switch (event.kind()) {
                case FACT -> FactName.of(event.text("name")).ifPresent(name -> facts.put(name, typed(event, "text")));
                case SERIES -> {
                    series.add(new SheetSeries(
                            event.seq(),
                            event.text("material"),
                            typed(event, "speed"),
                            typed(event, "acceleration"),
                            typed(event, "from"),
                            typed(event, "to"),
                            Boolean.parseBoolean(event.text("onward")),
                            List.of()));
                    readings.add(new ArrayList<>());
                }
                case READING -> {
                    if (!readings.isEmpty()) {
                        readings.get(readings.size() - 1)
                                .add(new SheetReading(
                                        event.seq(),
                                        event.at(),
                                        Boolean.parseBoolean(event.text("start")),
                                        typed(event, "reference"),
                                        typed(event, "reading"),
                                        "",
                                        ""));
                    }
                }
                case COMMENT -> change(event, true);
                case SPOILED -> change(event, false);
                case PHOTO ->
                    photos.add(new Photo(
                            event.seq(),
                            event.at(),
                            event.text("sha256"),
                            event.text("name"),
                            event.text("type"),
                            Long.parseLong(event.text("bytes"))));
                case LOG -> logs.put(event.text("name"), event.text("sha256"));
                case RECORDINGS -> trial = event.text("trial");
                case STARTED, ANSWER, UNDO -> {}
            }
        }

        private void change(Event event, boolean comment) {
            long wanted = Long.parseLong(event.text("reading"));
            String text = event.text("text");
            for (List<SheetReading> some : readings) {
                some.replaceAll(reading -> reading.seq() != wanted
                        ? reading
                        : comment ? reading.withComment(text) : reading.withSpoiled(text));
            }
        }

        List<SheetSeries> finished() {
            List<SheetSeries> all = new ArrayList<>();
            for (int i = 0; i < series.size(); i++) {
                SheetSeries one = series.get(i);
                all.add(new SheetSeries(
                        one.seq(),
                        one.material(),
                        one.speed(),
                        one.acceleration(),
                        one.from(),
                        one.to(),
                        one.onward(),
                        readings.get(i)));
            }
            return all;
        }
    }
}
