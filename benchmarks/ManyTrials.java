import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import slowproof.archive.Archive;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;
import slowproof.archive.RecordedEvent;
import slowproof.archive.desk.CardEvent;
import slowproof.archive.desk.CardKind;
import slowproof.archive.desk.Question;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.typed.Typed;

/** Fills an archive with thousands of small invented trials and questions, and measures the pages that search them. Run by many-trials.sh. */
public final class ManyTrials {
    private static final List<String> SURFACES =
            List.of("acoustic felt", "aluminium-faced glass fabric", "clear film");
    private static final List<String> KINDS =
            List.of("", " 12 mm", " 25 mm", " white", " grey", " roll 7", " old stock", " double", " thin", " batch B");
    private static final List<Double> SPEEDS = List.of(400.0, 245.0, 150.0, 90.0, 55.0, 35.0, 21.0, 13.0);
    private static final Instant FIRST = Instant.parse("2024-01-08T07:00:00Z");
    private static final int A_SENDING = 1000;
    private static final int WARM = 40;
    private static final int MEASURED = 100;

    private final SplittableRandom random;

    private ManyTrials(long seed) {
        this.random = new SplittableRandom(seed);
    }

    /** fill FOLDER TRIALS SEED, or measure HOME TRIALS. */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        if (arguments[0].equals("fill")) {
            new ManyTrials(Long.parseLong(arguments[3])).fill(Path.of(arguments[1]), Integer.parseInt(arguments[2]));
        } else {
            new Asking(arguments[1]).all(Integer.parseInt(arguments[2]));
        }
    }

    private void fill(Path folder, int trials) {
        long start = System.nanoTime();
        long events = 0;
        try (Archive archive = Archive.open(folder, Clock.systemUTC())) {
            Map<String, List<RecordedEvent>> sending = new LinkedHashMap<>();
            for (int i = 0; i < trials; i++) {
                List<RecordedEvent> trial = trial(i);
                events += trial.size();
                sending.put(String.format(Locale.ROOT, "many%08d", i), trial);
                if (sending.size() == A_SENDING || i == trials - 1) {
                    archive.takeIn(sending);
                    sending.clear();
                }
            }
            List<List<CardEvent>> questions = new ArrayList<>();
            for (int i = 0; i < trials / 5; i++) {
                questions.add(question(i));
            }
            archive.cards().takeIn(CardKind.QUESTION, questions);
        }
        System.out.printf(
                Locale.ROOT,
                "written: %d trials, %d events, %d questions in %.1f s%n",
                trials,
                events,
                trials / 5,
                (System.nanoTime() - start) / 1e9);
    }

    private <T> T any(List<T> list) {
        return list.get(random.nextInt(list.size()));
    }

    private List<RecordedEvent> trial(int number) {
        String surface = any(SURFACES) + any(KINDS);
        double knee = 15 + 60 * random.nextDouble();
        List<NewEvent> events = new ArrayList<>();
        events.add(fact(FactName.TITLE, surface + ", trial " + number));
        events.add(fact(FactName.SENSOR_NAME, "bench sensor"));
        events.add(fact(FactName.SENSOR_SERIAL, "invented-" + random.nextInt(6)));
        events.add(fact(FactName.NOTES, any(List.of("dusty window", "lamp behind", "cable guided", "night shift"))));
        if (random.nextInt(20) > 0) {
            events.add(fact(FactName.REFERENCE_UNCERTAINTY, random.nextInt(8) == 0 ? "2" : "0.02"));
        }
        if (random.nextInt(20) > 0) {
            events.add(fact(FactName.LIMIT_PERCENT, any(List.of("0.1", "0.15", "0.2"))));
        }
        int fastest = random.nextInt(3);
        for (double speed : SPEEDS.subList(fastest, fastest + 3 + random.nextInt(3))) {
            series(events, surface, speed, -0.02 / (1 + Math.exp((speed - knee) / (0.2 * knee))));
        }
        if (random.nextInt(40) == 0) {
            events.remove(events.size() - 1);
        }
        Instant at = FIRST.plus(Duration.ofMinutes(90L * number));
        List<RecordedEvent> recorded = new ArrayList<>();
        recorded.add(new RecordedEvent(new Event(1, at, EventKind.STARTED, Map.of()), ""));
        for (NewEvent event : events) {
            at = at.plusSeconds(12);
            recorded.add(new RecordedEvent(
                    new Event(recorded.size() + 1L, at, event.kind(), event.fields()), ""));
        }
        return recorded;
    }

    private void series(List<NewEvent> events, String surface, double speed, double error) {
        double stroke = random.nextBoolean() ? 900 : 600;
        events.add(Sheet.starting(surface, typed(String.valueOf(speed)), "500", "0", String.valueOf(stroke), false));
        double reading = 0;
        events.add(Sheet.reading(typed("0.0"), "0", true));
        for (int pass = 0; pass < 4; pass++) {
            double moved = stroke * (1 + error) + 0.08 * (random.nextDouble() - 0.5);
            reading += pass % 2 == 0 ? moved : -moved;
            events.add(Sheet.reading(
                    typed(String.format(Locale.ROOT, "%.1f", reading)),
                    pass % 2 == 0 ? String.valueOf(stroke) : "0",
                    false));
        }
    }

    private List<CardEvent> question(int number) {
        Instant at = FIRST.plus(Duration.ofHours(7L * number));
        LocalDate due = at.atZone(ZoneOffset.UTC).toLocalDate().plusDays(10);
        List<CardEvent> events = new ArrayList<>();
        events.add(new CardEvent(
                1,
                at,
                Question.ASKED,
                Map.of(
                        "material", any(SURFACES) + any(KINDS),
                        "slowest", any(List.of("30", "60", "100")),
                        "fastest", "200",
                        "piece", "900",
                        "tolerance", "2",
                        "asked_by", "invented plant " + random.nextInt(300),
                        "due", due.toString(),
                        "mark", "dot")));
        if (random.nextInt(10) > 0) {
            events.add(new CardEvent(
                    2, at, Question.ANSWERED, Map.of("en", "Yes.", "de", "Ja.", "verdict", "holds", "evidence", "")));
            events.add(new CardEvent(3, at, Question.SENT, Map.of()));
        }
        return events;
    }

    private static NewEvent fact(FactName name, String text) {
        return Sheet.noting(name, typed(text));
    }

    private static Typed typed(String text) {
        return new Typed(text, Typed.NOTHING.mark(), Typed.NOTHING.lengthUnit(), Typed.NOTHING.speedUnit());
    }

    /** Asks a server for pages and times them. */
    private static final class Asking {
        private final HttpClient client = HttpClient.newBuilder()
                .version(HttpClient.Version.HTTP_1_1)
                .build();
        private final String home;

        Asking(String home) {
            this.home = home;
        }

        void all(int trials) throws IOException, InterruptedException {
            long start = System.nanoTime();
            get("/trials.csv");
            System.out.printf(
                    Locale.ROOT, "all trials evaluated and summed up: %.1f s%n%n", (System.nanoTime() - start) / 1e9);
            System.out.printf("%-52s %8s %8s %8s%n", "ms, request and answer", "least", "median", "90 %");
            page("list of trials", "/trials");
            page("  last page", "/trials?from=" + (trials - 40));
            page("  a word of many", "/trials?q=dusty");
            page("  two words of few", "/trials?q=" + encoded("trial 4711"));
            page("  a word of none", "/trials?q=velvet");
            page("  surface", "/trials?material=" + encoded("felt grey"));
            page("  sensor", "/trials?sensor=" + encoded("invented-3"));
            page("  tested from", "/trials?slowest=300");
            page("  tested up to", "/trials?fastest=14");
            for (String standing : List.of("holds", "partly", "fails", "undecided", "screening_only")) {
                page("  one pass: " + standing, "/trials?standing=" + standing);
            }
            for (String attention : List.of("half_way", "no_limit", "no_reference", "undecided", "none")) {
                page("  waits for: " + attention, "/trials?attention=" + attention);
            }
            page("  last entry in one month", "/trials?since=2024-06-01&until=2024-06-30");
            page(
                    "  everything at once",
                    "/trials?q=dusty&material=felt&sensor=invented&slowest=40&fastest=100&standing=partly&since=2024-02-01");
            for (String order : List.of("changed", "title", "slowest", "holds_from")) {
                page("  order: " + order, "/trials?order=" + order);
            }
            page("questions, nothing typed", "/questions");
            page("  a word in the questions", "/questions?q=" + encoded("plant 17"));
            String rest = "&fastest=200&piece=900&tolerance=2&gentlest=500&hardest=500";
            page("  inquiry: a surface of many trials", "/questions?slowest=60&material=" + encoded("acoustic felt") + rest);
            page("  inquiry: one kind of surface", "/questions?slowest=60&material=" + encoded("clear film roll 7") + rest);
            page("  inquiry: a name like none", "/questions?slowest=60&material=velvet" + rest);
            page("  a question that was kept", "/questions/7");
        }

        private static String encoded(String text) {
            return URLEncoder.encode(text, StandardCharsets.UTF_8);
        }

        private void page(String name, String path) throws IOException, InterruptedException {
            double[] times = new double[MEASURED];
            for (int i = 0; i < WARM + MEASURED; i++) {
                long start = System.nanoTime();
                get(path);
                if (i >= WARM) {
                    times[i - WARM] = (System.nanoTime() - start) / 1e6;
                }
            }
            Arrays.sort(times);
            System.out.printf(
                    Locale.ROOT,
                    "%-52s %8.1f %8.1f %8.1f%n",
                    name,
                    times[0],
                    times[MEASURED / 2],
                    times[MEASURED * 9 / 10]);
        }

        private void get(String path) throws IOException, InterruptedException {
            HttpResponse<String> answer = client.send(
                    HttpRequest.newBuilder(URI.create(home + path)).build(), HttpResponse.BodyHandlers.ofString());
            if (answer.statusCode() != 200) {
                throw new IOException(path + " was answered with " + answer.statusCode());
            }
        }
    }
}
