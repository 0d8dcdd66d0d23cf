package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.Archive;
import slowproof.archive.Event;
import slowproof.archive.EventKind;

/**
 * The server is killed, without a chance to tidy up, while readings are typed: whatever it acknowledged is there
 * afterwards. Each round starts a process of its own on the same archive and kills it after a random time.
 */
class SuddenDeathTest {
    private static final long SEED = Long.getLong("slowproof.seed.deaths", 20_260_302L);

    @TempDir
    Path folder;

    private final List<String> acknowledged = new CopyOnWriteArrayList<>();
    private final AtomicReference<String> draft = new AtomicReference<>("");
    private String trial = "";

    /** Started in a process of its own: serves an archive until it is killed. */
    static final class Victim {
        private Victim() {}

        public static void main(String[] arguments) throws InterruptedException {
            Server server = Server.start(Path.of(arguments[0]), 0);
            System.out.println(server.url());
            Thread.sleep(Long.MAX_VALUE);
        }
    }

    @Test
    void acknowledgedReadingsOutliveThreeDeaths() throws Exception {
        dieAndCompare(3);
    }

    @Test
    @Tag("long")
    void acknowledgedReadingsOutliveFiftyDeaths() throws Exception {
        dieAndCompare(50);
    }

    private void dieAndCompare(int deaths) throws Exception {
        Random random = new Random(SEED);
        for (int death = 1; death <= deaths; death++) {
            Process process = start();
            try {
                Visitor visitor = new Visitor(address(process));
                if (trial.isEmpty()) {
                    begin(visitor);
                }
                Thread typist = new Thread(() -> type(visitor));
                typist.start();
                waitFor(acknowledged.size() + 1 + random.nextInt(6), typist);
                // somewhere between one acknowledgement and the next
                Thread.sleep(random.nextInt(30));
                process.destroyForcibly().waitFor();
                typist.join();
            } finally {
                process.destroyForcibly();
            }
            compare("seed " + SEED + ", death " + death);
        }
        assertThat(acknowledged.size()).isGreaterThan(deaths);
        System.out.printf("%d deaths, %d acknowledged readings, none lost%n", deaths, acknowledged.size());
    }

    private void waitFor(int readings, Thread typist) throws InterruptedException {
        while (acknowledged.size() < readings && typist.isAlive()) {
            Thread.sleep(1);
        }
    }

    private Process start() throws IOException {
        return new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("java.class.path"),
                        Victim.class.getName(),
                        folder.toString())
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
    }

    private static String address(Process process) throws IOException {
        BufferedReader reader =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
        String line = reader.readLine();
        assertThat(line).as("the server started").isNotNull();
        return line;
    }

    private void begin(Visitor visitor) {
        trial = visitor.newTrial();
        visitor.post(trial + "/series", "speed", "50", "from", "0", "to", "600", "start", "0.0");
        acknowledged.add("0.0");
    }

    /** Types until the server is gone: keystrokes of each reading as drafts, then the reading itself. */
    private void type(Visitor visitor) {
        try {
            while (true) {
                int n = acknowledged.size();
                String text = n % 2 == 1 ? "600." + n : "0." + n;
                HttpResponse<String> kept =
                        visitor.post(trial + "/draft", "reading", text.substring(0, text.length() - 1));
                if (kept.statusCode() == 204) {
                    draft.set(text.substring(0, text.length() - 1));
                }
                // the answer is read from the redirect: the page behind it may no longer come
                HttpResponse<String> answer =
                        visitor.postOnly(trial + "/readings", "reading", text, "confirmed", text, "token", "n" + n);
                if (answer.statusCode() == 303) {
                    acknowledged.add(text);
                    draft.set("");
                }
            }
        } catch (IllegalStateException e) {
            // the server is dead
        }
    }

    private void compare(String when) {
        try (Archive archive = Archive.open(folder, Clock.systemUTC())) {
            String id = trial.substring("/trials/".length());
            List<String> recorded = archive.events(id).stream()
                    .filter(event -> event.kind() == EventKind.READING)
                    .map(event -> event.text("reading"))
                    .toList();
            assertThat(recorded).as(when).startsWith(acknowledged.toArray(String[]::new));
            // at most the one that was on its way may be there without having been acknowledged
            assertThat(recorded.size() - acknowledged.size()).as(when).isBetween(0, 1);
            if (recorded.size() == acknowledged.size()) {
                String wanted = draft.get();
                String next = acknowledged.size() % 2 == 1 ? "600." : "0.";
                String found = archive.drafts("trial:" + id).getOrDefault("reading", "");
                assertThat(found).as(when + ", draft").startsWith(wanted.isEmpty() ? "" : next);
            }
            if (recorded.size() > acknowledged.size()) {
                draft.set("");
            }
            acknowledged.clear();
            acknowledged.addAll(recorded);
            List<Long> numbers = archive.events(id).stream().map(Event::seq).toList();
            assertThat(numbers).as(when).isSorted().doesNotHaveDuplicates();
        }
    }
}
