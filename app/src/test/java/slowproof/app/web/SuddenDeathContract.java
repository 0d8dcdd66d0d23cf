package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.Archive;
import slowproof.archive.ArchivePlace;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;
import slowproof.archive.TrialEntry;
import slowproof.archive.UnknownTrialException;
import slowproof.archive.parcel.ParcelWriter;

/**
 * The server is killed, without a chance to tidy up, while readings are typed, photos are sent and whole trials are
 * taken in: whatever it acknowledged is there afterwards, and nothing is there by half. Each round starts a process of
 * its own on the same archive and kills it after a random time.
 */
abstract class SuddenDeathContract {
    private static final long SEED = Long.getLong("slowproof.seed.deaths", 20_260_302L);
    private static final byte[] PNG = {(byte) 0x89, 'P', 'N', 'G', 0x0d, 0x0a, 0x1a, 0x0a};

    @TempDir
    Path folder;

    private final Random random = new Random(SEED);
    private final List<String> readings = new ArrayList<>();
    private final List<String> photos = new ArrayList<>();
    private final Map<String, byte[]> takenIn = new LinkedHashMap<>();
    private final AtomicInteger acknowledged = new AtomicInteger();
    private volatile String draft = "";
    private String trial = "";
    private String underWay = "";

    /** Returns where the archive is kept; the same place every time. */
    abstract ArchivePlace place();

    /** Does to the database what may happen to it just before the server dies. */
    abstract void disturb(int death);

    /** Makes the database answer again. */
    abstract void recover(int death);

    /** Started in a process of its own: serves an archive until it is killed. */
    static final class Victim {
        private Victim() {}

        public static void main(String[] words) throws InterruptedException {
            ArchivePlace place = words.length == 1
                    ? new ArchivePlace.Folder(Path.of(words[0]))
                    : new ArchivePlace.Shared(words[1], Path.of(words[0]));
            Server server = Server.start(place, Reach.here(0));
            System.out.println(server.url());
            Thread.sleep(Long.MAX_VALUE);
        }
    }

    @Test
    void whatWasAcknowledgedOutlivesThreeDeaths() throws Exception {
        dieAndCompare(3);
    }

    @Test
    @Tag("long")
    void whatWasAcknowledgedOutlivesFiftyDeaths() throws Exception {
        dieAndCompare(50);
    }

    private void dieAndCompare(int deaths) throws Exception {
        int all = 0;
        int lastOnes = 0;
        for (int death = 1; death <= deaths; death++) {
            Process process = start();
            try {
                Visitor visitor = new Visitor(address(process));
                if (trial.isEmpty()) {
                    begin(visitor);
                }
                acknowledged.set(0);
                Thread person = new Thread(() -> work(visitor));
                person.start();
                waitFor(1 + random.nextInt(6), person);
                // somewhere between one acknowledgement and the next
                Thread.sleep(random.nextInt(30));
                disturb(death);
                process.destroyForcibly().waitFor();
                person.join();
            } finally {
                process.destroyForcibly();
            }
            recover(death);
            all += acknowledged.get();
            lastOnes += compare("seed " + SEED + ", death " + death);
        }
        assertThat(all).isGreaterThanOrEqualTo(deaths);
        System.out.printf(
                "%s: %d deaths; acknowledged and all there: %d (%d readings, %d photos, %d whole trials in all);"
                        + " recorded without an answer: %d; by half: 0%n",
                getClass().getSimpleName(), deaths, all, readings.size(), photos.size(), takenIn.size(), lastOnes);
    }

    private void waitFor(int wanted, Thread person) throws InterruptedException {
        while (acknowledged.get() < wanted && person.isAlive()) {
            Thread.sleep(1);
        }
    }

    private Process start() throws IOException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("java.class.path"),
                Victim.class.getName()));
        if (place() instanceof ArchivePlace.Shared shared) {
            command.add(shared.files().toString());
            command.add(shared.url());
        } else {
            command.add(folder.toString());
        }
        return new ProcessBuilder(command)
                .redirectError(folder.resolve("victim.log").toFile())
                .start();
    }

    private String address(Process process) throws IOException {
        BufferedReader reader =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
        String line = reader.readLine();
        if (line == null) {
            throw new IOException("the server did not start: " + Files.readString(folder.resolve("victim.log")));
        }
        return line;
    }

    private void begin(Visitor visitor) {
        trial = visitor.newTrial();
        visitor.post(trial + "/series", "speed", "50", "from", "0", "to", "600", "start", "0.0");
        readings.add("0.0");
    }

    /** Works until the server is gone; each piece of work counts only when its answer has come. */
    private void work(Visitor visitor) {
        Random choice = new Random(random.nextLong());
        try {
            boolean answered = true;
            while (answered) {
                int what = choice.nextInt(10);
                answered = what < 6 ? type(visitor) : what < 8 ? photograph(visitor, choice) : takeIn(visitor, choice);
                if (answered) {
                    acknowledged.incrementAndGet();
                }
            }
        } catch (IllegalStateException e) {
            // the server is dead
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    private boolean type(Visitor visitor) {
        int n = readings.size();
        String text = n % 2 == 1 ? "600." + n : "0." + n;
        String begun = text.substring(0, text.length() - 1);
        if (visitor.postOnly(trial + "/draft", "reading", begun).statusCode() == 204) {
            draft = begun;
        }
        // the answer is read from the redirect: the page behind it may no longer come
        HttpResponse<String> answer =
                visitor.postOnly(trial + "/readings", "reading", text, "confirmed", text, "token", "n" + n);
        if (answer.statusCode() != 303) {
            return false;
        }
        readings.add(text);
        draft = "";
        return true;
    }

    private boolean photograph(Visitor visitor, Random choice) {
        byte[] content = new byte[1000 + choice.nextInt(400_000)];
        choice.nextBytes(content);
        System.arraycopy(PNG, 0, content, 0, PNG.length);
        String name = sha256(content);
        HttpResponse<String> answer =
                visitor.uploadOnly(trial + "/photos", "photo", "bench.png", "p" + name.substring(0, 20), content);
        if (answer.statusCode() != 303) {
            return false;
        }
        photos.add(name);
        return true;
    }

    private boolean takeIn(Visitor visitor, Random choice) throws IOException {
        byte[] parcel = parcel(choice);
        HttpResponse<String> answer = visitor.uploadOnly("/take-in", "parcel", "trial.zip", "", parcel);
        if (answer.statusCode() != 303) {
            return false;
        }
        takenIn.put(underWay, parcel);
        underWay = "";
        return true;
    }

    /** A trial of another archive, with a raw file and twenty entries. */
    private byte[] parcel(Random choice) throws IOException {
        byte[] content = new byte[200_000];
        choice.nextBytes(content);
        System.arraycopy(PNG, 0, content, 0, PNG.length);
        try (Archive elsewhere = elsewhere()) {
            List<NewEvent> events = new ArrayList<>();
            events.add(NewEvent.of(
                    EventKind.PHOTO,
                    "sha256",
                    elsewhere.keepFile(content),
                    "name",
                    "a.png",
                    "type",
                    "image/png",
                    "bytes",
                    String.valueOf(content.length)));
            for (int i = 0; i < 19; i++) {
                events.add(NewEvent.of(EventKind.FACT, "name", "notes", "text", "note " + i));
            }
            underWay = elsewhere.start("ines", events);
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            ParcelWriter.write(elsewhere, underWay, elsewhere.recorded(underWay), "test", Map.of(), bytes);
            return bytes.toByteArray();
        }
    }

    private Archive elsewhere() {
        return Archive.open(folder.resolve("elsewhere"), Clock.systemUTC());
    }

    /** Compares what is there with what was acknowledged, and returns how much more is there: the last work, or nothing. */
    private int compare(String when) {
        try (Archive archive = Archive.open(place(), Clock.systemUTC());
                Archive elsewhere = elsewhere()) {
            String id = trial.substring("/trials/".length());
            List<Event> events = archive.events(id);
            List<String> recorded = texts(events, EventKind.READING, "reading");
            List<String> shown = texts(events, EventKind.PHOTO, "sha256");
            assertThat(recorded).as(when).startsWith(readings.toArray(String[]::new));
            assertThat(shown).as(when).startsWith(photos.toArray(String[]::new));
            int more = recorded.size() - readings.size() + shown.size() - photos.size();
            for (String taken : takenIn.keySet()) {
                assertThat(archive.recorded(taken)).as(when).isEqualTo(elsewhere.recorded(taken));
            }
            if (!underWay.isEmpty()) {
                more += isThere(archive, elsewhere, when) ? 1 : 0;
                underWay = "";
            }
            // at most the work that was on its way may be there without having been acknowledged
            assertThat(more).as(when).isBetween(0, 1);
            if (recorded.size() == readings.size()) {
                String next = draft.isEmpty() ? "" : readings.size() % 2 == 1 ? "600." : "0.";
                assertThat(archive.drafts("trial:" + id).getOrDefault("reading", ""))
                        .as(when + ", draft")
                        .startsWith(next);
            } else {
                draft = "";
            }
            readings.clear();
            readings.addAll(recorded);
            photos.clear();
            photos.addAll(shown);
            requireWhole(archive, when);
            return more;
        }
    }

    private boolean isThere(Archive archive, Archive elsewhere, String when) {
        try {
            assertThat(archive.recorded(underWay)).as(when).isEqualTo(elsewhere.recorded(underWay));
            return true;
        } catch (UnknownTrialException e) {
            return false;
        }
    }

    private static List<String> texts(List<Event> events, EventKind kind, String field) {
        return events.stream()
                .filter(event -> event.kind() == kind)
                .map(event -> event.text(field))
                .toList();
    }

    /** Every trial has its events without a gap, and every file that one of them names lies there as it was. */
    private static void requireWhole(Archive archive, String when) {
        for (TrialEntry entry : archive.trials("", 0, 10_000)) {
            List<Event> events = archive.events(entry.id());
            for (int i = 0; i < events.size(); i++) {
                assertThat(events.get(i).seq()).as(when).isEqualTo(i + 1L);
                String file = events.get(i).text("sha256");
                if (!file.isEmpty()) {
                    assertThat(sha256(read(archive.file(file).orElseThrow())))
                            .as(when)
                            .isEqualTo(file);
                }
            }
        }
    }

    private static byte[] read(Path file) {
        try {
            return Files.readAllBytes(file);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    private static String sha256(byte[] content) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(content));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
