package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import slowproof.app.Days;
import slowproof.archive.CardChangedException;
import slowproof.archive.TrialEntry;
import slowproof.archive.desk.CardEntry;
import slowproof.archive.desk.CardEvent;
import slowproof.archive.desk.CardFilter;
import slowproof.archive.desk.CardKind;
import slowproof.archive.desk.Sample;
import slowproof.wording.Wording;

/** What customers sent: where it lies, which trials ran on it, and when it is to go back. */
public final class SamplesPage {
    static final int A_PAGE = 40;

    private static final String ADDRESS = "/samples/{number}";
    private static final int LONGEST_WORDS = 200;
    private static final Pattern TRIAL_ADDRESS = Pattern.compile("^.*/trials/([a-z0-9]+)(?:[/?#].*)?$");

    private final Site site;
    private final CardDesk desk;

    SamplesPage(Site site) {
        this.site = site;
        this.desk = new CardDesk(site, CardKind.SAMPLE);
    }

    void install(RoutesConfig routes) {
        routes.get("/samples", context -> list(Visit.of(context), SampleForm.arrived(site.today())));
        routes.post("/samples", this::note);
        routes.get(ADDRESS, this::show);
        routes.post(ADDRESS, this::correct);
        routes.post(ADDRESS + "/returned", this::giveBack);
        routes.post(ADDRESS + "/kept", context -> record(context, Sample.KEPT, Map.of()));
        routes.post(ADDRESS + "/linked", this::link);
        routes.post(
                ADDRESS + "/unlinked",
                context -> record(
                        context,
                        Sample.UNLINKED,
                        Map.of("trial", Visit.of(context).field("trial"))));
        routes.get(ADDRESS + "/label", this::label);
    }

    /**
     * A row of the list.
     *
     * @param entry the card
     * @param sample the sample
     * @param overdue whether it should have gone back
     */
    public record Line(CardEntry entry, Sample sample, boolean overdue) {}

    /**
     * What the list shows.
     *
     * @param form the sample being typed
     * @param token name of the form, so that sending it twice counts once
     * @param words words of the filter
     * @param state state of the filter
     * @param lines samples
     * @param from how many are left out at the start
     * @param total how many the filter lets through
     * @param overdue how many are overdue, whatever the filter
     */
    public record ListView(
            SampleForm form,
            String token,
            String words,
            CardFilter.State state,
            List<Line> lines,
            int from,
            int total,
            int overdue) {
        /** Copies the list. */
        public ListView {
            lines = List.copyOf(lines);
        }

        /** Returns true when only some are asked for. */
        public boolean isNarrowed() {
            return !words.isEmpty() || state != CardFilter.State.ANY;
        }
    }

    private void list(Visit visit, SampleForm form) {
        Context context = visit.context();
        String asked = context.queryParam("q");
        String words = asked == null ? "" : asked.substring(0, Math.min(LONGEST_WORDS, asked.length()));
        CardFilter filter = new CardFilter(words, state(context.queryParam("state")), site.today());
        String text = context.queryParam("from");
        int from = text != null && text.matches("[0-9]{1,6}") ? Integer.parseInt(text) : 0;
        List<Line> lines = new ArrayList<>();
        for (CardEntry entry : desk.cards().list(CardKind.SAMPLE, filter, from, A_PAGE)) {
            Sample sample = Sample.of(entry.id(), entry.number(), desk.cards().events(CardKind.SAMPLE, entry.number()));
            lines.add(new Line(entry, sample, SampleView.isOverdue(sample, site.today())));
        }
        ListView view = new ListView(
                form,
                Visit.random(),
                words,
                filter.state(),
                lines,
                from,
                desk.cards().count(CardKind.SAMPLE, filter),
                desk.cards().count(CardKind.SAMPLE, new CardFilter("", CardFilter.State.OVERDUE, site.today())));
        Wording wording = visit.wording();
        site.send(
                visit,
                "samples.jte",
                wording,
                "samples",
                wording.text("samples.title"),
                form.problems(),
                Map.of("view", view));
    }

    private static CardFilter.State state(String key) {
        for (CardFilter.State state : CardFilter.State.values()) {
            if (state.key().equals(key)) {
                return state;
            }
        }
        return CardFilter.State.ANY;
    }

    private void note(Context context) {
        Visit visit = Visit.of(context);
        SampleForm form = SampleForm.sent(visit);
        if (!form.problems().isEmpty()) {
            list(visit, form);
            return;
        }
        int number = desk.start(visit, Sample.NOTED, form.fields());
        visit.goTo("/samples/" + number);
    }

    private void show(Context context) {
        Sample sample = sample(context, desk.events(context));
        send(context, new SampleForm(sample.typed(), List.of()), List.of());
    }

    private static Sample sample(Context context, List<CardEvent> events) {
        int number = CardDesk.number(context);
        return Sample.of(String.valueOf(number), number, events);
    }

    private void send(Context context, SampleForm form, List<CardEvent> meanwhile) {
        Visit visit = Visit.of(context);
        Wording wording = visit.wording();
        List<CardEvent> events = desk.events(context);
        Sample sample = sample(context, events);
        site.send(
                visit,
                "sample.jte",
                wording,
                "sample",
                wording.text("samples.one", sample.number()),
                form.problems(),
                Map.of("view", SampleView.of(sample, form, events, meanwhile, site, wording)));
    }

    private void correct(Context context) {
        Visit visit = Visit.of(context);
        SampleForm form = SampleForm.sent(visit);
        if (!form.problems().isEmpty()) {
            send(context, form, CardDesk.unseen(visit, desk.events(context)));
            return;
        }
        record(context, form, Sample.NOTED, form.fields());
    }

    private void giveBack(Context context) {
        Visit visit = Visit.of(context);
        String day = visit.field("day").strip();
        if (!Days.isDay(day)) {
            refuse(context, new Problem("day", visit.wording().text("typed.not_a_date", day)));
            return;
        }
        record(context, Sample.RETURNED, Map.of("day", day));
    }

    private void refuse(Context context, Problem problem) {
        Sample sample = sample(context, desk.events(context));
        send(context, new SampleForm(sample.typed(), List.of(problem)), List.of());
    }

    /** A trial is named by words that only it has, by its id, or by the address of its page. */
    private void link(Context context) {
        Visit visit = Visit.of(context);
        String typed = visit.field("trial").strip();
        Matcher address = TRIAL_ADDRESS.matcher(typed);
        String words = address.matches() ? address.group(1) : typed;
        List<TrialEntry> found = words.isEmpty() ? List.of() : site.archive().find(words, 2);
        if (found.size() != 1) {
            String key = found.isEmpty() ? "samples.trial.none" : "samples.trial.many";
            refuse(context, new Problem("trial", visit.wording().text(key, typed)));
            return;
        }
        record(context, Sample.LINKED, Map.of("trial", found.get(0).id()));
    }

    private void record(Context context, String event, Map<String, String> fields) {
        Sample sample = sample(context, desk.events(context));
        record(context, new SampleForm(sample.typed(), List.of()), event, fields);
    }

    /** Records an event on the state that the sender has seen; else shows what is there now, with what was typed. */
    private void record(Context context, SampleForm form, String event, Map<String, String> fields) {
        Visit visit = Visit.of(context);
        try {
            desk.record(visit, event, fields);
        } catch (CardChangedException e) {
            context.status(HttpStatus.CONFLICT);
            send(context, form, e.meanwhile());
            return;
        }
        visit.goTo("/samples/" + CardDesk.number(context));
    }

    private void label(Context context) {
        Visit visit = Visit.of(context);
        Wording wording = visit.wording();
        Sample sample = sample(context, desk.events(context));
        site.send(
                visit,
                "label.jte",
                wording,
                "",
                wording.text("samples.label.title", sample.number()),
                List.of(),
                Map.of("sample", sample, "code", code(sample.number())));
    }

    /** Returns what stands large on the label: the word for a sample is the same in both languages. */
    public static String code(int number) {
        return String.format(Locale.ROOT, "S-%04d", number);
    }
}
