package slowproof.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.desk.CardEntry;
import slowproof.archive.desk.CardEvent;
import slowproof.archive.desk.CardFilter;
import slowproof.archive.desk.CardFilter.State;
import slowproof.archive.desk.CardKind;
import slowproof.archive.desk.Question;
import slowproof.archive.desk.Sample;

class CardsTest {
    @TempDir
    Path folder;

    private Archive archive;
    private Cards cards;

    /** Returns a place that holds no archive yet. */
    ArchivePlace place() {
        return new ArchivePlace.Folder(folder);
    }

    @BeforeEach
    void open() {
        archive = Archive.open(place(), Clock.fixed(Instant.parse("2026-03-02T08:00:00Z"), ZoneOffset.UTC));
        cards = archive.cards();
    }

    @AfterEach
    void close() {
        archive.close();
    }

    private int sample(String material, String due) {
        return cards.start(CardKind.SAMPLE, "", Sample.NOTED, Map.of("material", material, "due", due));
    }

    @Test
    void numbersCountFromOneForEachKind() {
        assertThat(sample("felt", "")).isEqualTo(1);
        assertThat(sample("film", "")).isEqualTo(2);
        assertThat(cards.start(CardKind.QUESTION, "", Question.ASKED, Map.of())).isEqualTo(1);
    }

    @Test
    void sameFormSentTwiceStartsOneCardAndRecordsOneEvent() {
        Map<String, String> felt = Map.of("material", "felt");
        assertThat(cards.start(CardKind.SAMPLE, "a", Sample.NOTED, felt)).isEqualTo(1);
        assertThat(cards.start(CardKind.SAMPLE, "a", Sample.NOTED, felt)).isEqualTo(1);
        cards.append(CardKind.SAMPLE, 1, "b", Sample.RETURNED, Map.of("day", "2026-04-01"));
        cards.append(CardKind.SAMPLE, 1, "b", Sample.RETURNED, Map.of("day", "2026-04-02"));
        assertThat(Sample.of("", 1, cards.events(CardKind.SAMPLE, 1)).returned())
                .isEqualTo("2026-04-01");
        assertThat(cards.events(CardKind.SAMPLE, 1)).hasSize(2);
    }

    @Test
    void whatWasTypedComesBackAndTheLastCorrectionCounts() {
        Map<String, String> typed = new HashMap<>(Map.of("material", "felt \"grey\" \u00bd\n<b>", "sender", "a plant"));
        int number = cards.start(CardKind.SAMPLE, "", Sample.NOTED, typed);
        typed.put("batch", "7");
        cards.append(CardKind.SAMPLE, number, "", Sample.NOTED, typed);
        Sample sample = Sample.of("", number, cards.events(CardKind.SAMPLE, number));
        assertThat(sample.typed()).isEqualTo(typed);
        assertThat(cards.events(CardKind.SAMPLE, number).get(0).text("batch")).isEmpty();
    }

    @Test
    void openAndSoonestDueComeFirst() {
        sample("no date", "");
        sample("late", "2026-05-01");
        sample("soon", "2026-04-01");
        sample("gone", "2026-03-01");
        cards.append(CardKind.SAMPLE, 4, "", Sample.RETURNED, Map.of("day", "2026-02-28"));
        assertThat(cards.list(CardKind.SAMPLE, CardFilter.of(""), 0, 10))
                .extracting(CardEntry::title)
                .containsExactly("soon", "late", "no date", "gone");
        assertThat(cards.due(CardKind.SAMPLE, "2026-04-01"))
                .extracting(CardEntry::title)
                .containsExactly("soon");
        assertThat(cards.count(CardKind.SAMPLE, state(State.OPEN))).isEqualTo(3);
        assertThat(cards.count(CardKind.SAMPLE, state(State.ANY))).isEqualTo(4);
        assertThat(cards.list(CardKind.SAMPLE, CardFilter.of("DATE no"), 0, 10)).hasSize(1);
        assertThat(cards.list(CardKind.SAMPLE, CardFilter.of(""), 1, 1))
                .extracting(CardEntry::title)
                .containsExactly("late");
    }

    private static CardFilter state(State state) {
        return new CardFilter("", state, "2026-04-15");
    }

    @Test
    void overdueIsWhatIsOpenAndWasDueBeforeToday() {
        sample("no date", "");
        sample("late", "2026-04-14");
        sample("today", "2026-04-15");
        sample("went back late", "2026-03-01");
        cards.append(CardKind.SAMPLE, 4, "", Sample.RETURNED, Map.of("day", "2026-04-10"));
        assertThat(cards.list(CardKind.SAMPLE, state(State.OVERDUE), 0, 9))
                .extracting(CardEntry::title)
                .containsExactly("late");
        assertThat(cards.list(CardKind.SAMPLE, state(State.DONE), 0, 9))
                .extracting(CardEntry::title)
                .containsExactly("went back late");
    }

    @Test
    void whoHasNotSeenTheLastEntryIsToldAndRecordsNothing() {
        sample("felt", "");
        cards.append(CardKind.SAMPLE, 1, 1, "a", Sample.RETURNED, Map.of("day", "2026-04-01"));
        assertThatThrownBy(() -> cards.append(CardKind.SAMPLE, 1, 1, "b", Sample.NOTED, Map.of("material", "film")))
                .isInstanceOfSatisfying(
                        CardChangedException.class,
                        e -> assertThat(e.meanwhile())
                                .extracting(CardEvent::kind)
                                .containsExactly(Sample.RETURNED));
        assertThat(cards.events(CardKind.SAMPLE, 1)).hasSize(2);
        // the same sending again, its answer having been lost, is no conflict with itself
        assertThat(cards.append(CardKind.SAMPLE, 1, 1, "a", Sample.RETURNED, Map.of("day", "2026-04-01")))
                .isTrue();
        assertThat(cards.append(CardKind.SAMPLE, 1, 2, "c", Sample.KEPT, Map.of()))
                .isTrue();
        assertThat(cards.events(CardKind.SAMPLE, 1)).hasSize(3);
    }

    @Test
    void cardsTakenInKeepTheirTimesAndGetTheNextNumbers() {
        sample("felt", "");
        Instant at = Instant.parse("2025-11-03T10:00:00Z");
        cards.takeIn(
                CardKind.SAMPLE,
                List.of(
                        List.of(
                                new CardEvent(1, at, Sample.NOTED, Map.of("material", "film")),
                                new CardEvent(2, at.plusSeconds(60), Sample.RETURNED, Map.of("day", "2025-12-01"))),
                        List.of(new CardEvent(1, at, Sample.NOTED, Map.of("material", "fabric")))));
        CardEntry film =
                cards.list(CardKind.SAMPLE, CardFilter.of("film"), 0, 9).get(0);
        assertThat(film.number()).isEqualTo(2);
        assertThat(film.open()).isFalse();
        assertThat(film.startedAt()).isEqualTo(at);
        assertThat(film.changedAt()).isEqualTo(at.plusSeconds(60));
        assertThat(sample("more felt", "")).isEqualTo(4);
    }

    @Test
    void trialsAreLinkedAndUnlinked() {
        String trial = archive.start(List.of());
        sample("felt", "");
        cards.append(CardKind.SAMPLE, 1, "", Sample.LINKED, Map.of("trial", trial));
        assertThat(cards.ofTrial(CardKind.SAMPLE, trial))
                .extracting(CardEntry::number)
                .containsExactly(1);
        assertThat(cards.ofTrial(CardKind.QUESTION, trial)).isEmpty();
        cards.append(CardKind.SAMPLE, 1, "", Sample.UNLINKED, Map.of("trial", trial));
        assertThat(cards.ofTrial(CardKind.SAMPLE, trial)).isEmpty();
    }

    @Test
    void questionIsOpenUntilItsLastAnswerWentOut() {
        cards.start(
                CardKind.QUESTION,
                "",
                Question.ASKED,
                Map.of("material", "film", "asked_by", "the cutter", "due", "2026-03-03"));
        cards.append(
                CardKind.QUESTION,
                1,
                "",
                Question.ANSWERED,
                Map.of("en", "yes", "de", "ja", "verdict", "holds", "evidence", "abc def"));
        assertThat(cards.due(CardKind.QUESTION, "2026-03-03")).hasSize(1);
        cards.append(CardKind.QUESTION, 1, "", Question.SENT, Map.of());
        assertThat(cards.due(CardKind.QUESTION, "2026-03-03")).isEmpty();
        Question question = Question.of("", 1, cards.events(CardKind.QUESTION, 1));
        assertThat(question.sent()).isTrue();
        assertThat(question.answers()).singleElement().satisfies(answer -> {
            assertThat(answer.english()).isEqualTo("yes");
            assertThat(answer.evidence()).containsExactly("abc", "def");
        });
        cards.append(CardKind.QUESTION, 1, "", Question.REOPENED, Map.of());
        assertThat(cards.count(CardKind.QUESTION, state(State.OPEN))).isEqualTo(1);
        assertThat(cards.list(CardKind.QUESTION, CardFilter.of(""), 0, 9).get(0).title())
                .isEqualTo("film, the cutter");
    }

    @Test
    void cardThatDoesNotExistIsSaid() {
        assertThat(cards.events(CardKind.SAMPLE, 9)).isEmpty();
        assertThat(cards.append(CardKind.SAMPLE, 9, "", Sample.KEPT, Map.of())).isFalse();
    }
}
