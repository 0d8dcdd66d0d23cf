package slowproof.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.stream.LongStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.desk.CardKind;
import slowproof.archive.desk.Sample;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.ReleasedAnswer;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.typed.Typed;

/** What holds for every archive, whichever database keeps it. */
abstract class ArchiveContract {
    @TempDir
    Path folder;

    private ArchivePlace place;

    /** Returns a place that holds no archive yet. */
    abstract ArchivePlace newPlace();

    @BeforeEach
    void choosePlace() {
        place = newPlace();
    }

    Archive open() {
        return Archive.open(place, Clock.systemUTC());
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
            assertThat(Files.getPosixFilePermissions(archive.file(name).orElseThrow()))
                    .doesNotContain(
                            PosixFilePermission.OWNER_WRITE,
                            PosixFilePermission.GROUP_WRITE,
                            PosixFilePermission.OTHERS_WRITE);
            // FIPS 180-4, example values of NIST: SHA-256 of "abc"
            assertThat(archive.keepFile("abc".getBytes(StandardCharsets.US_ASCII)))
                    .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
            assertThat(archive.file("../slowproof.db")).isEmpty();
            assertThat(archive.file("0".repeat(64))).isEmpty();
        }
    }

    @Test
    void releasedAnswerStaysAsItWasWhateverIsRecordedAfterIt() throws Exception {
        byte[] file = "%PDF-1.7 the answer".getBytes(StandardCharsets.US_ASCII);
        ReleasedAnswer.Subject english = new ReleasedAnswer.Subject("en", "pdf", "", "");
        String id;
        try (Archive archive = open()) {
            id = archive.start(List.of(fact(FactName.TITLE, "one")));
            archive.append(
                    id,
                    Sending.of(
                            "r1",
                            "ines",
                            List.of(ReleasedAnswer.releasing(
                                    archive.keepFile(file),
                                    "one-answer-1.pdf",
                                    file.length,
                                    english,
                                    new ReleasedAnswer.Release("Ines Example", "2026-11-26", ""),
                                    null))));
            archive.append(id, "", List.of(fact(FactName.TITLE, "two")));
            // nothing takes a release back
            archive.append(id, "", List.of(NewEvent.of(EventKind.UNDO, "seq", "3")));
        }
        try (Archive archive = open()) {
            ReleasedAnswer answer = ReleasedAnswer.of(archive.events(id)).get(0);
            assertThat(Files.readAllBytes(archive.file(answer.sha256()).orElseThrow()))
                    .isEqualTo(file);
            assertThat(answer.release().person()).isEqualTo("Ines Example");
            assertThat(answer.who()).isEqualTo("ines");
            assertThat(answer.stands()).isTrue();
            assertThat(answer.outdated()).isTrue();
            try (Database database = Databases.open(place)) {
                assertThatThrownBy(() -> database.write(
                                handle -> handle.execute("update event set fields = '{}' where kind = 'answer'")))
                        .hasMessageContaining("what was recorded is never");
            }
        }
    }

    @Test
    void amendmentSupersedesAndBothStayInTheRecord() {
        ReleasedAnswer.Subject english = new ReleasedAnswer.Subject("en", "pdf", "", "");
        try (Archive archive = open()) {
            String id = archive.start(List.of());
            for (int number = 1; number <= 2; number++) {
                archive.append(
                        id,
                        "",
                        List.of(ReleasedAnswer.releasing(
                                archive.keepFile(new byte[] {(byte) number}),
                                "a.pdf",
                                1,
                                english,
                                new ReleasedAnswer.Release("Ines", "2026-11-2" + number, number == 1 ? "" : "slip"),
                                number == 1 ? null : Integer.valueOf(1))));
            }
            assertThat(ReleasedAnswer.of(archive.events(id)))
                    .extracting(
                            ReleasedAnswer::number,
                            ReleasedAnswer::supersedes,
                            ReleasedAnswer::supersededBy,
                            answer -> answer.release().reason(),
                            ReleasedAnswer::outdated)
                    .containsExactly(tuple(1, null, 2, "", false), tuple(2, 1, null, "slip", false));
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
    void whoRecordedAnEventIsKept() {
        try (Archive archive = open()) {
            String id = archive.start("ines", List.of());
            archive.append(id, Sending.of("", "jon", List.of(fact(FactName.TITLE, "one"))));
            assertThat(archive.events(id)).extracting(Event::who).containsExactly("ines", "jon");
        }
    }

    @Test
    void secondOfTwoIsToldWhatTheFirstRecordedAndNothingIsLost() {
        try (Archive archive = open()) {
            String id = archive.start("ines", List.of());
            archive.append(id, new Sending("", "ines", 1, List.of(fact(FactName.TITLE, "hers"))));
            Sending late = new Sending("t", "jon", 1, List.of(fact(FactName.TITLE, "his")));
            assertThatThrownBy(() -> archive.append(id, late))
                    .isInstanceOfSatisfying(
                            ChangedMeanwhileException.class,
                            e -> assertThat(e.meanwhile())
                                    .extracting(Event::seq, Event::who, event -> event.text("text"))
                                    .containsExactly(tuple(2L, "ines", "hers")));
            assertThat(archive.sheet(id).title()).isEqualTo("hers");
            assertThat(archive.append(id, new Sending("t", "jon", 2, late.events())))
                    .isTrue();
            assertThat(archive.sheet(id).title()).isEqualTo("his");
            // sent again, because the answer was lost: it counts once, although it is itself newer than what was seen
            assertThat(archive.append(id, new Sending("t", "jon", 2, late.events())))
                    .isFalse();
        }
    }

    @Test
    void eventIsNotRecordedWithoutTheFileItNames() {
        try (Archive archive = open()) {
            String id = archive.start(List.of());
            NewEvent photo = NewEvent.of(
                    EventKind.PHOTO, "sha256", "0".repeat(64), "name", "a.png", "type", "image/png", "bytes", "3");
            assertThatThrownBy(() -> archive.append(id, "", List.of(fact(FactName.TITLE, "one"), photo)))
                    .isInstanceOf(IllegalStateException.class);
            assertThat(archive.events(id)).hasSize(1);
        }
    }

    @Test
    void recordedEventsCanBeNeitherChangedNorRemoved() throws Exception {
        try (Archive archive = open()) {
            String id = archive.start(List.of(fact(FactName.TITLE, "one")));
            archive.append(
                    id,
                    "",
                    List.of(NewEvent.of(
                            EventKind.PHOTO,
                            "sha256",
                            archive.keepFile(new byte[] {1}),
                            "name",
                            "a.png",
                            "type",
                            "image/png",
                            "bytes",
                            "1")));
            archive.keepResult(id, 3, "findings", "1.0 (abc)", new byte[] {2});
            archive.cards().start(CardKind.SAMPLE, "", Sample.NOTED, Map.of("material", "felt"));
            try (Database database = Databases.open(place)) {
                for (String forbidden : List.of(
                        "update event set fields = '{}'",
                        "update event set at = at where seq = 1",
                        "delete from event",
                        "delete from event where seq = 2",
                        "update result set program = 'other'",
                        "delete from result",
                        "update kept_file set bytes = 0",
                        "delete from kept_file",
                        "update card_event set fields = '{}'",
                        "delete from card_event")) {
                    assertThatThrownBy(() -> database.write(handle -> handle.execute(forbidden)))
                            .as(forbidden)
                            .hasMessageContaining("what was recorded is never");
                }
            }
            assertThat(archive.sheet(id).title()).isEqualTo("one");
            assertThat(archive.events(id)).hasSize(3);
        }
    }

    @Test
    void resultsAreKeptOnceAProgramAndState() throws Exception {
        try (Archive archive = open()) {
            String id = archive.start(List.of());
            byte[] first = {1};
            assertThat(archive.keepResult(id, 1, "findings", "1.0 (abc)", first))
                    .isTrue();
            assertThat(archive.keepResult(id, 1, "findings", "1.0 (abc)", new byte[] {2}))
                    .isFalse();
            assertThat(archive.keepResult(id, 1, "findings", "1.1 (def)", new byte[] {3}))
                    .isTrue();
            assertThat(archive.results(id))
                    .extracting(Result::seq, Result::kind, Result::program)
                    .containsExactly(tuple(1L, "findings", "1.0 (abc)"), tuple(1L, "findings", "1.1 (def)"));
            Path kept = archive.file(archive.results(id).get(0).sha256()).orElseThrow();
            assertThat(Files.readAllBytes(kept)).isEqualTo(first);
            assertThatThrownBy(() -> archive.keepResult("none", 1, "findings", "1.0", first))
                    .isInstanceOf(UnknownTrialException.class);
        }
    }

    @Test
    void characterZeroIsKeptInTheRecord() {
        try (Archive archive = open()) {
            String id = archive.start(List.of(fact(FactName.TITLE, "a\0b")));
            assertThat(archive.sheet(id).title()).isEqualTo("a\0b");
            archive.keepDrafts("trial", Map.of("reading", "6\0"));
            assertThat(archive.trials("", 0, 1)).hasSize(1);
        }
    }

    @Test
    void archiveOfANewerProgramIsRefused() throws Exception {
        open().close();
        try (Database database = Databases.open(place)) {
            database.write(handle -> handle.execute("insert into flyway_schema_history (installed_rank, version,"
                    + " description, type, script, installed_by, execution_time, success)"
                    + " values (1000, '1000', 'later', 'SQL', 'V1000__later.sql', 'x', 1, true)"));
        }
        assertThatThrownBy(this::open).hasMessageContaining("newer version");
    }

    @Test
    void migrationsAreAsManyAsTheQuickCheckKnows() throws Exception {
        for (String own : List.of(Migrations.SQLITE, Migrations.POSTGRESQL)) {
            List<String> numbers = new ArrayList<>();
            for (String folder : List.of(Migrations.COMMON, own)) {
                Path migrations = Path.of(getClass().getResource("/" + folder).toURI());
                try (var names = Files.list(migrations)) {
                    names.map(path -> path.getFileName().toString())
                            .forEach(name -> numbers.add(name.substring(1, name.indexOf("__"))));
                }
            }
            assertThat(numbers).as(own).hasSize(Migrations.COUNT).doesNotHaveDuplicates();
        }
    }
}
