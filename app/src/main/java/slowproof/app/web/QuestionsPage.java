package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.archive.CardChangedException;
import slowproof.archive.NewEvent;
import slowproof.archive.desk.CardEntry;
import slowproof.archive.desk.CardEvent;
import slowproof.archive.desk.CardFilter;
import slowproof.archive.desk.CardKind;
import slowproof.archive.desk.Question;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.typed.Typed;
import slowproof.trial.evidence.Inquiry;
import slowproof.wording.Wording;

/** The question desk: what somebody asks is answered from what was tried. Questions and answers are kept. */
public final class QuestionsPage {
    private static final int A_PAGE = 40;
    private static final String ADDRESS = "/questions/{number}";

    /** Fields that somebody reads; how a decimal sign was typed is not one. */
    private static final List<String> SAID =
            Question.FIELDS.stream().filter(name -> !name.equals("mark")).toList();

    private final Site site;
    private final CardDesk desk;

    QuestionsPage(Site site) {
        this.site = site;
        this.desk = new CardDesk(site, CardKind.QUESTION);
    }

    void install(RoutesConfig routes) {
        routes.get("/questions", this::list);
        routes.post("/questions", this::ask);
        routes.get(ADDRESS, context -> show(context, null, List.of()));
        routes.post(ADDRESS, this::correct);
        routes.post(ADDRESS + "/answer", this::answer);
        routes.post(ADDRESS + "/sent", context -> record(context, null, Question.SENT, Map.of()));
        routes.post(ADDRESS + "/reopen", context -> record(context, null, Question.REOPENED, Map.of()));
        routes.post(ADDRESS + "/trial", this::makeTrial);
    }

    /**
     * What the list shows.
     *
     * @param form the question being typed
     * @param view evidence for it
     * @param token name of the form, so that sending it twice counts once
     * @param words words of the filter
     * @param entries questions
     * @param today day, ISO 8601
     */
    public record ListView(
            QuestionForm form, QuestionView view, String token, String words, List<CardEntry> entries, String today) {
        /** Copies the list. */
        public ListView {
            entries = List.copyOf(entries);
        }
    }

    /**
     * What the page of a question shows.
     *
     * @param question the question
     * @param form what was typed
     * @param view evidence for it as of now
     * @param last the last answer that was kept, or null
     * @param token name of the forms, so that sending one twice counts once
     * @param seen number of its last event
     * @param meanwhile what was recorded while a form was filled in, a sentence each
     * @param typed true when that form had something typed in it
     * @param history events, the last first
     */
    public record View(
            Question question,
            QuestionForm form,
            QuestionView view,
            Question.@Nullable Answer last,
            String token,
            long seen,
            List<String> meanwhile,
            boolean typed,
            List<CardEvent> history) {
        /** Copies the lists. */
        public View {
            meanwhile = List.copyOf(meanwhile);
            history = List.copyOf(history);
        }
    }

    private void list(Context context) {
        Visit visit = Visit.of(context);
        QuestionForm typed = QuestionForm.sent(visit, context::queryParam);
        // a blank that is still empty is no mistake while the question is being typed
        QuestionForm quiet = new QuestionForm(
                typed.fields(),
                typed.inquiry(),
                typed.problems().stream()
                        .filter(problem -> !typed.field(problem.field()).isEmpty())
                        .toList());
        sendList(visit, quiet);
    }

    private void sendList(Visit visit, QuestionForm form) {
        Wording wording = visit.wording();
        site.summaries().upToDate();
        String asked = visit.context().queryParam("q");
        String words = asked == null ? "" : asked.substring(0, Math.min(200, asked.length()));
        ListView view = new ListView(
                form,
                QuestionView.of(form.inquiry(), 0, site, wording),
                Visit.random(),
                words,
                desk.cards().list(CardKind.QUESTION, CardFilter.of(words), 0, A_PAGE),
                site.today());
        site.send(
                visit,
                "questions.jte",
                wording,
                "questions",
                wording.text("questions.title"),
                form.problems(),
                Map.of("view", view));
    }

    private void ask(Context context) {
        Visit visit = Visit.of(context);
        QuestionForm form = QuestionForm.sent(visit, context::formParam);
        if (!form.problems().isEmpty()) {
            sendList(visit, form);
            return;
        }
        int number = desk.start(visit, Question.ASKED, form.fields());
        visit.goTo("/questions/" + number);
    }

    private Question question(Context context) {
        return question(context, desk.events(context));
    }

    private static Question question(Context context, List<CardEvent> events) {
        int number = CardDesk.number(context);
        return Question.of(String.valueOf(number), number, events);
    }

    /** Shows a question as it is kept, or with what was sent and not recorded; evidence is always that for what is kept. */
    private void show(Context context, @Nullable QuestionForm sent, List<CardEvent> meanwhile) {
        Visit visit = Visit.of(context);
        Wording wording = visit.wording();
        List<CardEvent> events = desk.events(context);
        Question question = question(context, events);
        site.summaries().upToDate();
        QuestionForm kept = QuestionForm.of(question.typed(), visit);
        List<Problem> problems = sent == null ? List.of() : sent.problems();
        QuestionForm form = sent == null ? kept : new QuestionForm(sent.fields(), kept.inquiry(), problems);
        QuestionView evidence = QuestionView.of(form.inquiry(), use(context), site, wording);
        boolean replied = !meanwhile.isEmpty() && context.formParam("en") != null;
        List<CardEvent> history = new ArrayList<>(events);
        Collections.reverse(history);
        View view = new View(
                question,
                form,
                replied ? evidence.withChanged(before(context, events), visit::field) : evidence,
                QuestionView.last(question),
                Visit.random(),
                events.get(events.size() - 1).seq(),
                told(meanwhile, events, wording),
                sent != null || replied,
                history);
        site.send(
                visit,
                "question.jte",
                wording,
                "inquiry",
                wording.text("inquiry.title", question.number()),
                problems,
                Map.of("view", view));
    }

    /** Returns the evidence as the sender of a form saw it. */
    private QuestionView before(Context context, List<CardEvent> events) {
        Visit visit = Visit.of(context);
        int unseen = CardDesk.unseen(visit, events).size();
        List<CardEvent> seen = events.subList(0, events.size() - unseen);
        Question question = question(context, seen.isEmpty() ? events : seen);
        return QuestionView.of(QuestionForm.of(question.typed(), visit).inquiry(), use(context), site, visit.wording());
    }

    private List<String> told(List<CardEvent> some, List<CardEvent> all, Wording wording) {
        Show show = new Show(wording, site.zone());
        return CardStory.told(
                some,
                show,
                wording,
                event -> event.kind().equals(Question.ASKED)
                        ? CardStory.typed(
                                event, all, SAID, wording, "inquiry.event", name -> label(name, show, wording))
                        : wording.text("inquiry.event." + event.kind()));
    }

    private static String label(String field, Show show, Wording wording) {
        return switch (field) {
            case "slowest", "fastest" -> wording.text("inquiry." + field, show.speedUnit());
            case "tolerance" -> wording.text("inquiry.tolerance", show.lengthUnit());
            case "piece" -> wording.text("inquiry.piece.label", show.lengthUnit());
            default -> wording.text("inquiry." + field);
        };
    }

    private static int use(Context context) {
        String use = context.queryParam("use");
        return use != null && use.matches("[0-9]") ? Integer.parseInt(use) : 0;
    }

    private void correct(Context context) {
        Visit visit = Visit.of(context);
        QuestionForm form = QuestionForm.sent(visit, context::formParam);
        if (!form.problems().isEmpty()) {
            show(context, form, CardDesk.unseen(visit, desk.events(context)));
            return;
        }
        record(context, form, Question.ASKED, form.fields());
    }

    private void answer(Context context) {
        Visit visit = Visit.of(context);
        Question question = question(context);
        QuestionForm form = QuestionForm.of(question.typed(), visit);
        QuestionView view = QuestionView.of(form.inquiry(), use(context), site, visit.wording());
        record(
                context,
                null,
                Question.ANSWERED,
                view.kept(visit.field("en"), visit.field("de"), site.summaries().program()));
    }

    /** Records an event on the state that the sender has seen; else shows what is there now, with what was typed. */
    private void record(Context context, @Nullable QuestionForm sent, String event, Map<String, String> fields) {
        Visit visit = Visit.of(context);
        try {
            desk.record(visit, event, fields);
        } catch (CardChangedException e) {
            // that it was sent, or is open again, need not be said twice
            boolean done = fields.isEmpty()
                    && e.meanwhile().stream().allMatch(one -> one.kind().equals(event));
            if (!done) {
                context.status(HttpStatus.CONFLICT);
                show(context, sent, e.meanwhile());
                return;
            }
        }
        visit.goTo("/questions/" + CardDesk.number(context));
    }

    /** A trial with what the question tells: surface, acceleration, and the tolerance as its limit. */
    private void makeTrial(Context context) {
        Visit visit = Visit.of(context);
        List<CardEvent> events = desk.events(context);
        Question question = question(context, events);
        if (desk.cards().hasRecorded(CardKind.QUESTION, question.number(), visit.field("token"))) {
            // sent twice: the trial is there, and the question leads to it
            visit.goTo("/questions/" + question.number());
            return;
        }
        List<CardEvent> corrections = CardDesk.unseen(visit, events).stream()
                .filter(event -> event.kind().equals(Question.ASKED))
                .toList();
        if (!corrections.isEmpty()) {
            context.status(HttpStatus.CONFLICT);
            show(context, null, corrections);
            return;
        }
        Inquiry inquiry =
                Objects.requireNonNull(QuestionForm.of(question.typed(), visit).inquiry(), "kept questions are whole");
        Map<FactName, String> facts = new LinkedHashMap<>();
        facts.put(FactName.TITLE, visit.wording().text("inquiry.trial_title", question.number(), inquiry.material()));
        facts.put(FactName.MATERIAL, inquiry.material());
        facts.put(FactName.LIMIT_PERCENT, plain(100 * inquiry.permitted()));
        Double acceleration = inquiry.gentlestMmPerS2();
        facts.put(FactName.ACCELERATION, acceleration == null ? "" : plain(acceleration));
        facts.put(FactName.NOTES, question.field("text"));
        List<NewEvent> noted = new ArrayList<>();
        facts.forEach((name, text) -> {
            if (!text.isBlank()) {
                noted.add(Sheet.noting(name, typed(text)));
            }
        });
        if (visit.german()) {
            noted.add(Sheet.noting(FactName.DECIMAL_MARK, typed("comma")));
        }
        String trial = site.archive().start(visit.who(), noted);
        desk.cards()
                .append(
                        CardKind.QUESTION,
                        question.number(),
                        visit.field("token"),
                        Question.TRIAL,
                        CardDesk.signed(context, Map.of("trial", trial)));
        visit.goTo("/trials/" + trial + "/bench");
    }

    private static String plain(double value) {
        return new BigDecimal(value)
                .round(new MathContext(6))
                .stripTrailingZeros()
                .toPlainString();
    }

    private static Typed typed(String text) {
        return new Typed(text, Typed.NOTHING.mark(), Typed.NOTHING.lengthUnit(), Typed.NOTHING.speedUnit());
    }
}
