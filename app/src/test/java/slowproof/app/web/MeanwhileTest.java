package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.Archive;
import slowproof.archive.EventKind;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;

/** Two people have the same page open: the second is told what the first recorded, and nothing of either is lost. */
class MeanwhileTest {
    @TempDir
    static Path folder;

    private static Server server;

    private Visitor first;
    private Visitor second;
    private String trial;
    private String seen;

    @BeforeAll
    static void start() {
        server = Server.start(folder.resolve("archive"), 0);
    }

    @AfterAll
    static void stop() {
        server.close();
    }

    @BeforeEach
    void bothOpenTheSheet() {
        first = new Visitor(server.url());
        second = new Visitor(server.url());
        trial = first.newTrial();
        first.post(
                trial + "/series", "speed", "50", "from", "0", "to", "600", "surface", "acoustic felt", "start", "0");
        seen = seenBy(second);
    }

    private String seenBy(Visitor visitor) {
        return visitor.get(trial).body().replaceAll("(?s).*name=\"seen\" value=\"([0-9]+)\".*", "$1");
    }

    private Sheet sheet() {
        try (Archive archive = Archive.open(folder.resolve("archive"), Clock.systemUTC())) {
            return archive.sheet(trial.substring("/trials/".length()));
        }
    }

    private List<String> readings() {
        return sheet().current().orElseThrow().readings().stream()
                .map(reading -> reading.reading().text())
                .toList();
    }

    @Test
    void secondReadingWaitsUntilItsSenderHasSeenTheFirst() {
        first.post(trial + "/readings", "reading", "600.6", "seen", seen);
        HttpResponse<String> told = second.post(trial + "/readings", "reading", "600.5", "seen", seen);
        assertThat(told.statusCode()).isEqualTo(422);
        assertThat(told.body())
                .contains("reading 600.6")
                .contains("Your reading 600.5 is not recorded yet")
                .contains("value=\"600.5\"");
        assertThat(readings()).containsExactly("0", "600.6");
        second.post(trial + "/readings", "reading", "0.3", "seen", seenBy(second));
        assertThat(readings()).containsExactly("0", "600.6", "0.3");
    }

    @Test
    void whatDoesNotMoveTheCarriageDisturbsNoReading() {
        first.post(trial + "/facts", "seen", seen, "fact_title", "Felt at the cutter");
        assertThat(second.post(trial + "/readings", "reading", "600.5", "seen", seen)
                        .statusCode())
                .isEqualTo(200);
        assertThat(readings()).containsExactly("0", "600.5");
    }

    @Test
    void toldReadingIsRecordedWhenItIsConfirmed() {
        first.post(trial + "/readings", "reading", "600.6", "seen", seen);
        String page =
                second.post(trial + "/readings", "reading", "0.2", "seen", seen).body();
        String now = page.replaceAll("(?s).*name=\"seen\" value=\"([0-9]+)\".*", "$1");
        second.post(trial + "/readings", "reading", "0.2", "confirmed", "0.2", "seen", now);
        assertThat(readings()).containsExactly("0", "600.6", "0.2");
    }

    @Test
    void readingWhoseAnswerWasLostCountsOnceAndIsNoConflictWithItself() {
        first.post(trial + "/readings", "reading", "600.6", "seen", seen, "token", "n1");
        assertThat(first.post(trial + "/readings", "reading", "600.6", "seen", seen, "token", "n1")
                        .statusCode())
                .isEqualTo(200);
        assertThat(readings()).containsExactly("0", "600.6");
    }

    @Test
    void differentFactsOfTwoPeopleBothCountAndTheSecondIsTold() {
        first.post(trial + "/facts", "seen", seen, "fact_title", "Felt at the cutter", "fact_notes", "");
        // the whole form comes back, with the title as it was when the page was made
        HttpResponse<String> page =
                second.post(trial + "/facts", "seen", seen, "fact_title", "", "fact_notes", "window cleaned at 9:00");
        assertThat(page.statusCode()).isEqualTo(200);
        assertThat(page.body()).contains("Recorded meanwhile by others").contains("Title: Felt at the cutter");
        assertThat(sheet().title()).isEqualTo("Felt at the cutter");
        assertThat(sheet().facts().text(FactName.NOTES)).isEqualTo("window cleaned at 9:00");
    }

    @Test
    void sameFactOfTwoPeopleIsAskedAboutAndTheRestOfTheFirstStays() {
        first.post(trial + "/facts", "seen", seen, "fact_title", "hers", "fact_sensor_name", "Bench unit");
        HttpResponse<String> asked =
                second.post(trial + "/facts", "seen", seen, "fact_title", "his", "fact_sensor_name", "");
        assertThat(asked.statusCode()).isEqualTo(422);
        assertThat(asked.body())
                .contains("Title was changed meanwhile to \"hers\". Yours is \"his\"")
                .contains("value=\"his\"")
                .contains("value=\"Bench unit\"");
        assertThat(sheet().title()).isEqualTo("hers");
        String now = asked.body().replaceAll("(?s).*name=\"seen\" value=\"([0-9]+)\".*", "$1");
        second.post(trial + "/facts", "seen", now, "fact_title", "his", "fact_sensor_name", "Bench unit");
        assertThat(sheet().title()).isEqualTo("his");
        assertThat(sheet().facts().text(FactName.SENSOR_NAME)).isEqualTo("Bench unit");
    }

    @Test
    void nextSeriesAndUndoWaitToo() {
        first.post(trial + "/readings", "reading", "600.6", "seen", seen);
        HttpResponse<String> series = second.post(
                trial + "/series", "seen", seen, "speed", "25", "from", "0", "to", "600", "surface", "clear film");
        assertThat(series.statusCode()).isEqualTo(422);
        assertThat(series.body()).contains("this was recorded").contains("value=\"clear film\"");
        assertThat(second.post(trial + "/undo", "seen", seen, "seq", "3").statusCode())
                .isEqualTo(422);
        assertThat(sheet().series()).hasSize(1);
        assertThat(readings()).containsExactly("0", "600.6");
    }

    @Test
    void remarksOnDifferentPassesDoNotDisturbEachOther() {
        for (String reading : List.of("600.6", "0.3")) {
            first.post(trial + "/readings", "reading", reading);
        }
        String both = seenBy(second);
        first.post(trial + "/remark", "seen", both, "of", "4", "kind", "comment", "remark_4", "window wiped");
        HttpResponse<String> other =
                second.post(trial + "/remark", "seen", both, "of", "5", "kind", "spoiled", "remark_5", "cable caught");
        assertThat(other.statusCode()).isEqualTo(200);
        HttpResponse<String> same =
                second.post(trial + "/remark", "seen", both, "of", "4", "kind", "spoiled", "remark_4", "slipped");
        assertThat(same.statusCode()).isEqualTo(422);
        assertThat(same.body()).contains("window wiped").contains("value=\"slipped\"");
    }

    @Test
    void whatWasRecordedSaysWho() {
        try (Archive archive = Archive.open(folder.resolve("archive"), Clock.systemUTC())) {
            assertThat(archive.events(trial.substring("/trials/".length())))
                    .filteredOn(event -> event.kind() == EventKind.SERIES)
                    .allMatch(event -> event.who().equals(System.getProperty("user.name")));
        }
    }
}
