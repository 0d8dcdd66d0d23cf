package slowproof.app.web;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import slowproof.archive.Cards;
import slowproof.archive.desk.CardEntry;
import slowproof.archive.desk.CardKind;
import slowproof.archive.summary.Attention;
import slowproof.wording.Wording;

/**
 * Something that waits.
 *
 * @param text what
 * @param address where it is
 * @param late whether it should have been done before today
 */
public record Waiting(String text, String address, boolean late) {
    /** More than these hide what else waits. */
    private static final int MOST_NAMED = 6;

    /** One due card with its kind. */
    private record Due(CardKind kind, CardEntry entry) {}

    /**
     * Returns what waits, what is most urgent first: answers and samples that are due today or were due, the longest due
     * first; then trials by what they wait for.
     */
    static List<Waiting> of(Site site, Wording wording) {
        List<Waiting> waiting = due(site, wording);
        for (Map.Entry<Attention, Integer> one :
                site.summaries().index().waiting().entrySet()) {
            String key = one.getKey().key();
            waiting.add(new Waiting(wording.text("waiting." + key, one.getValue()), "/trials?attention=" + key, false));
        }
        return waiting;
    }

    private static List<Waiting> due(Site site, Wording wording) {
        Cards cards = site.archive().cards();
        String today = site.today();
        List<Due> due = new ArrayList<>();
        for (CardKind kind : CardKind.values()) {
            cards.due(kind, today).forEach(entry -> due.add(new Due(kind, entry)));
        }
        // the sort is stable: of the same day, answers come before samples
        due.sort(Comparator.comparing(one -> one.entry().due()));
        List<Waiting> waiting = new ArrayList<>();
        for (Due one : due.subList(0, Math.min(MOST_NAMED, due.size()))) {
            waiting.add(named(one, today, site, wording));
        }
        if (due.size() > MOST_NAMED) {
            List<Due> rest = due.subList(MOST_NAMED, due.size());
            boolean questions = rest.stream().anyMatch(one -> one.kind() == CardKind.QUESTION);
            waiting.add(new Waiting(
                    wording.text("waiting.more", rest.size()), questions ? "/questions" : "/samples", false));
        }
        return waiting;
    }

    private static Waiting named(Due due, String today, Site site, Wording wording) {
        CardEntry entry = due.entry();
        boolean question = due.kind() == CardKind.QUESTION;
        boolean late = entry.due().compareTo(today) < 0;
        String title = entry.title().isEmpty()
                ? wording.text(question ? "inquiry.title" : "samples.one", entry.number())
                : entry.title();
        String key = "waiting." + (question ? "question" : "sample") + (late ? "_late" : "");
        return new Waiting(
                wording.text(key, new Show(wording, site.zone()).day(entry.due()), title),
                (question ? "/questions/" : "/samples/") + entry.number(),
                late);
    }
}
