package slowproof.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.typed.Typed;

class ArchiveTest {
    @TempDir
    Path folder;

    private Archive open() {
        return Archive.open(folder, Clock.systemUTC());
    }

    private static NewEvent fact(FactName name, String text) {
        return Sheet.noting(
                name, new Typed(text, Typed.NOTHING.mark(), Typed.NOTHING.lengthUnit(), Typed.NOTHING.speedUnit()));
    }

    @Test
    void whatWasTypedComesBackLetterByLetter() {
        String odd = "  600,6\t\"µm\" ½ \u202f<b>\n";
        String id;
        try (Archive archive = open()) {
            id = archive.start(List.of(fact(FactName.NOTES, odd)));
        }
        try (Archive archive = open()) {
            assertThat(archive.events(id)).hasSize(2);
            assertThat(archive.events(id).get(1).text("text")).isEqualTo(odd);
        }
    }

    @Test
    void sameTokenIsRecordedOnce() {
        try (Archive archive = open()) {
            String id = archive.start(List.of());
            assertThat(archive.append(id, "a", List.of(fact(FactName.TITLE, "one"))))
                    .isTrue();
            assertThat(archive.append(id, "a", List.of(fact(FactName.TITLE, "two"))))
                    .isFalse();
            assertThat(archive.sheet(id).title()).isEqualTo("one");
        }
    }

    @Test
    void unknownTrialIsSaid() {
        try (Archive archive = open()) {
            assertThatThrownBy(() -> archive.events("none")).isInstanceOf(UnknownTrialException.class);
            assertThatThrownBy(() -> archive.append("none", "", List.of())).isInstanceOf(UnknownTrialException.class);
        }
    }

    @Test
    void listIsNewestFirstAndFiltersByAllWords() {
        try (Archive archive = open()) {
            String felt = archive.start(
                    List.of(fact(FactName.TITLE, "Felt at the cutter"), fact(FactName.NOTES, "100%_sure")));
            String film = archive.start(List.of(fact(FactName.TITLE, "Clear film")));
            archive.append(felt, "", List.of(fact(FactName.SENSOR_NAME, "Bench unit")));
            assertThat(archive.trials("", 0, 10)).extracting(TrialEntry::id).containsExactly(felt, film);
            assertThat(archive.trials("CUTTER bench", 0, 10))
                    .extracting(TrialEntry::id)
                    .containsExactly(felt);
            assertThat(archive.trials("cutter film", 0, 10)).isEmpty();
            assertThat(archive.trials("0%_s", 0, 10)).extracting(TrialEntry::id).containsExactly(felt);
            assertThat(archive.trials("0%s", 0, 10)).isEmpty();
            assertThat(archive.trials("", 1, 10)).extracting(TrialEntry::id).containsExactly(film);
        }
    }

    @Test
    void draftsAreKeptReplacedAndDropped() {
        try (Archive archive = open()) {
            archive.keepDrafts("trial", Map.of("reading", "600"));
            archive.keepDrafts("trial", Map.of("reading", "600.6"));
            archive.keepDrafts("other", Map.of("reading", "1"));
            assertThat(archive.drafts("trial")).isEqualTo(Map.of("reading", "600.6"));
            archive.keepDrafts("trial", Map.of("reading", ""));
            assertThat(archive.drafts("trial")).isEmpty();
        }
    }

    @Test
    void filesAreKeptByContent() throws Exception {
        try (Archive archive = open()) {
            byte[] content = "a photo".getBytes(StandardCharsets.UTF_8);
            String name = archive.keepFile(content);
            assertThat(archive.keepFile(content)).isEqualTo(name);
            assertThat(Files.readAllBytes(archive.file(name).orElseThrow())).isEqualTo(content);
            assertThat(archive.file("../slowproof.db")).isEmpty();
            assertThat(archive.file("0".repeat(64))).isEmpty();
        }
    }

    @Test
    void twoProcessesOnOneArchiveNumberTheirEventsOneAfterTheOther() throws Exception {
        try (Archive first = open();
                Archive second = open()) {
            String id = first.start(List.of());
            CountDownLatch go = new CountDownLatch(1);
            ExecutorService threads = Executors.newFixedThreadPool(2);
            for (Archive one : List.of(first, second)) {
                threads.execute(() -> {
                    try {
                        go.await();
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                    }
                    for (int i = 0; i < 50; i++) {
                        one.append(id, "", List.of(fact(FactName.TITLE, "t" + i)));
                    }
                });
            }
            go.countDown();
            threads.shutdown();
            assertThat(threads.awaitTermination(60, TimeUnit.SECONDS)).isTrue();
            assertThat(first.events(id))
                    .extracting(Event::seq)
                    .containsExactlyElementsOf(
                            LongStream.rangeClosed(1, 101).boxed().toList());
        }
    }

    @Test
    void newestMigrationIsTheOneTheQuickCheckKnows() throws Exception {
        Path migrations =
                Path.of(getClass().getResource("/slowproof/archive/migration").toURI());
        try (var names = Files.list(migrations)) {
            long newest = names.map(path -> path.getFileName().toString())
                    .mapToLong(name -> Long.parseLong(name.substring(1, name.indexOf("__"))))
                    .max()
                    .orElseThrow();
            assertThat(Database.SCHEMA_VERSION).isEqualTo(String.valueOf(newest));
        }
    }
}
