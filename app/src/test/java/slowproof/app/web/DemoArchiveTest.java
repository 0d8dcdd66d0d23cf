package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.app.demo.DemoArchive;
import slowproof.archive.Archive;
import slowproof.archive.TrialEntry;
import slowproof.archive.desk.CardEntry;
import slowproof.archive.desk.CardEvent;
import slowproof.archive.desk.CardFilter;
import slowproof.archive.desk.CardKind;
import slowproof.files.in.TrialReader;
import slowproof.trial.Trial;

class DemoArchiveTest {
    private static final LocalDate TODAY = LocalDate.parse("2026-03-02");

    @TempDir
    Path folder;

    /** Stands for the trial that the demo has printed: a small one is quicker. */
    private static Trial shown() {
        return TrialReader.read(Path.of("../docs/samples/first-trial/trial.yaml"))
                .trial();
    }

    private static void fill(Archive archive) {
        DemoArchive.fill(archive, shown(), TODAY, ZoneOffset.UTC);
    }

    private List<Object> filled(String name) {
        try (Archive archive = Archive.open(folder.resolve(name), Clock.systemUTC())) {
            fill(archive);
            List<Object> all = new ArrayList<>();
            for (TrialEntry trial : archive.trials("", 0, 100)) {
                all.addAll(archive.recorded(trial.id()));
            }
            for (CardKind kind : CardKind.values()) {
                for (CardEntry card : archive.cards().list(kind, CardFilter.of(""), 0, 100)) {
                    all.addAll(archive.cards().events(kind, card.number()));
                }
            }
            return all;
        }
    }

    @Test
    void theSameDayGivesTheSameArchive() {
        assertThat(filled("one")).isEqualTo(filled("another")).hasSizeGreaterThan(300);
    }

    @Test
    void daysAreCountedBackFromToday() {
        try (Archive archive = Archive.open(folder, Clock.systemUTC())) {
            fill(archive);
            List<TrialEntry> trials = archive.trials("", 0, 100);
            assertThat(trials).hasSize(14).allMatch(trial -> trial.id().startsWith("demo"));
            assertThat(trials.get(0).changedAt()).isBetween("2026-03-01T08:00:00Z", "2026-03-01T09:00:00Z");
            assertThat(archive.cards().due(CardKind.SAMPLE, TODAY.toString())).hasSize(1);
            assertThat(archive.cards().due(CardKind.QUESTION, TODAY.toString())).hasSize(1);
            List<CardEvent> answered = archive.cards().events(CardKind.QUESTION, 1);
            assertThat(answered).hasSize(3);
            assertThat(answered.get(1).text("verdict")).isEqualTo("holds");
            assertThat(answered.get(1).text("en")).contains("Yes, by our trial “Felt, first look at the new sensor”");
        }
    }

    @Test
    void pagesShowItAndSayThatItIsInvented() {
        try (Server server = Server.start(folder, 0)) {
            server.whenEmpty(archive ->
                    DemoArchive.fill(archive, shown(), LocalDate.now(ZoneId.systemDefault()), ZoneOffset.UTC));
            Visitor visitor = new Visitor(server.url());
            // waits for all summaries
            String table = visitor.get("/trials.csv").body();
            assertThat(table).contains("undecided").contains("holds").contains("no decision");
            assertThat(visitor.get("/trials?q=caught").body()).contains("again with the cable guided");
            assertThat(visitor.get("/trials").body())
                    .contains("This archive holds an invented scenario")
                    .contains("half way");
            for (String trial : Stream.of(table.split("\\R"))
                    .filter(row -> row.contains("demo"))
                    .toList()) {
                assertThat(trial).doesNotContain("looking");
            }
            // recordings are read, on one clock and on two
            for (String recorded : List.of("demo00000012", "demo00000013")) {
                assertThat(visitor.get("/trials/" + recorded).body())
                        .contains("245")
                        .doesNotContain("cannot be read");
            }
        }
    }

    @Test
    void anArchiveWithTrialsOfItsOwnIsLeftAlone() {
        try (Server server = Server.start(folder, 0)) {
            Visitor visitor = new Visitor(server.url());
            visitor.newTrial();
            server.whenEmpty(DemoArchiveTest::fill);
            assertThat(visitor.get("/trials").body()).doesNotContain("invented scenario");
        }
    }
}
