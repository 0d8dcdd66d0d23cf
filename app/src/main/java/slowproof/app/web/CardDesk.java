package slowproof.app.web;

import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import slowproof.archive.CardChangedException;
import slowproof.archive.Cards;
import slowproof.archive.desk.CardEvent;
import slowproof.archive.desk.CardKind;

/** Reads and records the events of one kind of card for its pages; the address tells which card. */
final class CardDesk {
    private final Site site;
    private final CardKind kind;

    CardDesk(Site site, CardKind kind) {
        this.site = site;
        this.kind = kind;
    }

    Cards cards() {
        return site.archive().cards();
    }

    static int number(Context context) {
        String number = context.pathParam("number");
        if (!number.matches("[0-9]{1,9}")) {
            throw new NotFoundResponse();
        }
        return Integer.parseInt(number);
    }

    /** Adds who sent it, where people have accounts. */
    static Map<String, String> signed(Context context, Map<String, String> fields) {
        String name = Reader.of(context).name();
        if (name.isEmpty()) {
            return fields;
        }
        Map<String, String> signed = new LinkedHashMap<>(fields);
        signed.put("by", name);
        return signed;
    }

    /** Returns what was recorded of the card, one event at least; no such card is no such page. */
    List<CardEvent> events(Context context) {
        List<CardEvent> events = cards().events(kind, number(context));
        if (events.isEmpty()) {
            throw new NotFoundResponse();
        }
        return events;
    }

    /** Returns what the sender of a form has not seen yet. */
    static List<CardEvent> unseen(Visit visit, List<CardEvent> events) {
        long seen = visit.seen();
        return events.stream().filter(event -> event.seq() > seen).toList();
    }

    /** Makes a card of a form that was sent, and returns its number. */
    int start(Visit visit, String event, Map<String, String> fields) {
        return cards().start(kind, visit.field("token"), event, signed(visit.context(), fields));
    }

    /**
     * Records an event on the state that the sender has seen.
     *
     * @throws CardChangedException if there is another by now
     */
    void record(Visit visit, String event, Map<String, String> fields) {
        Context context = visit.context();
        boolean there = cards().append(
                        kind, number(context), visit.seen(), visit.field("token"), event, signed(context, fields));
        if (!there) {
            throw new NotFoundResponse();
        }
    }
}
