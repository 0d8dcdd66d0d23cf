package slowproof.archive.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;
import slowproof.archive.typed.DecimalMark;
import slowproof.archive.typed.LengthUnit;
import slowproof.archive.typed.SpeedUnit;
import slowproof.archive.typed.Typed;
import slowproof.trial.Trial;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;

class SheetTrialTest {
    private final List<Event> events = new ArrayList<>();

    SheetTrialTest() {
        add(NewEvent.of(EventKind.STARTED));
    }

    private long add(NewEvent event) {
        long seq = events.size() + 1L;
        events.add(
                new Event(seq, Instant.parse("2026-03-02T09:00:00Z").plusSeconds(seq), event.kind(), event.fields()));
        return seq;
    }

    private static Typed typed(String text) {
        return new Typed(text, DecimalMark.DOT, LengthUnit.MM, SpeedUnit.MM_PER_S);
    }

    private void series(String material, String speed) {
        add(Sheet.starting(material, typed(speed), "", "0", "600", false));
    }

    private long read(String text) {
        return add(Sheet.reading(typed(text), "", false));
    }

    private void start(String text) {
        add(Sheet.reading(typed(text), "", true));
    }

    private void fact(FactName name, String text) {
        add(Sheet.noting(name, typed(text)));
    }

    private Sheet sheet() {
        return Sheet.of("t", events);
    }

    private SheetTrial made() {
        return SheetTrial.of(sheet(), "unnamed surface", ZoneOffset.UTC);
    }

    private Trial trial() {
        return Objects.requireNonNull(made().trial());
    }

    private Findings findings() {
        return Evaluation.of(trial());
    }

    @Test
    void nothingTypedIsNoTrial() {
        assertThat(made().trial()).isNull();
        series("felt", "50");
        start("0.0");
        assertThat(made().trial()).isNull();
    }

    @Test
    void forwardAndReturnGiveErrorsAndClosure() {
        series("felt", "50");
        start("0.0");
        read("600.6");
        read("0.3");
        Findings findings = findings();
        assertThat(findings.passes()).extracting("errorMm").containsExactly(0.6, 0.3);
        assertThat(findings.cycles().get(0).closureMm()).isCloseTo(0.3, within(1e-12));
        assertThat(findings.conditions().get(0).decision()).isEqualTo(Answer.SCREENING_ONLY);
    }

    @Test
    void factsFilledInLaterTurnScreeningIntoADecision() {
        series("felt", "50");
        start("0.0");
        for (String reading : List.of("600.1", "0.1", "600.2", "0.1", "600.2", "0.2")) {
            read(reading);
        }
        assertThat(findings().conditions().get(0).decision()).isEqualTo(Answer.SCREENING_ONLY);
        fact(FactName.LIMIT_PERCENT, "0.15");
        fact(FactName.REFERENCE_UNCERTAINTY, "0.02");
        fact(FactName.ACCELERATION, "500");
        assertThat(findings().conditions().get(0).decision()).isEqualTo(Answer.CONFORMS);
        assertThat(trial().series().get(0).accelerationMmPerS2()).isEqualTo(500);
    }

    @Test
    void undoTakesBackAndUndoOfUndoBringsBack() {
        series("felt", "50");
        start("0.0");
        long slip = read("6006");
        long undo = add(NewEvent.of(EventKind.UNDO, "seq", String.valueOf(slip)));
        assertThat(sheet().series().get(0).moves()).isEmpty();
        assertThat(Objects.requireNonNull(sheet().lastUndo()).seq()).isEqualTo(undo);
        add(NewEvent.of(EventKind.UNDO, "seq", String.valueOf(undo)));
        assertThat(sheet().series().get(0).moves()).hasSize(1);
        assertThat(events).hasSize(6);
    }

    @Test
    void zeroedCounterGivesErrorsWithoutClosureAndBackAgain() {
        fact(FactName.READING_MODE, "zeroed");
        series("felt", "50");
        read("600.6");
        read("-600.3");
        assertThat(findings().passes()).extracting("errorMm").containsExactly(0.6, 0.3);
        assertThat(findings().cycles().get(0).closureMm()).isNull();
        fact(FactName.READING_MODE, "cumulative");
        assertThat(findings().passes()).extracting("indicationMm").containsExactly(600.6, -1200.9);
    }

    @Test
    void spoiledPassIsExcludedWithItsReasonAndStays() {
        series("felt", "50");
        start("0.0");
        read("600.6");
        long spoiled = read("4.3");
        read("604.9");
        add(NewEvent.of(EventKind.SPOILED, "reading", String.valueOf(spoiled), "text", "cable caught"));
        assertThat(trial().exclusions())
                .extracting("pass", "reason")
                .containsExactly(tuple("felt-50/2", "cable caught"));
        assertThat(findings().passes()).hasSize(3);
        assertThat(made().passOf(spoiled)).isEqualTo("felt-50/2");
    }

    @Test
    void flickeringDisplayCountsAsOneThatShowsStepsOfThatRange() {
        series("felt", "50");
        start("0.0");
        read("600.2-600.6");
        SheetTrial made = made();
        assertThat(made.flickerMm()).isCloseTo(0.4, within(1e-9));
        assertThat(Objects.requireNonNull(trial().sensor().resolutionMm())).isCloseTo(0.4, within(1e-9));
        assertThat(trial().series().get(0).standstills().get(1).readingMm()).isEqualTo(600.4);
    }

    @Test
    void stepOfTheDisplayIsReadOffTheDigitsUnlessStated() {
        series("felt", "50");
        start("0");
        read("600.6");
        assertThat(Objects.requireNonNull(made().displayStepMm())).isCloseTo(0.1, within(1e-12));
        fact(FactName.RESOLUTION, "0.05");
        assertThat(made().displayStepMm()).isNull();
        assertThat(Objects.requireNonNull(trial().sensor().resolutionMm())).isEqualTo(0.05);
    }

    @Test
    void unitsChangedLaterLeaveWhatWasTypedAlone() {
        add(Sheet.starting(
                "felt", new Typed("3", DecimalMark.COMMA, LengthUnit.INCH, SpeedUnit.M_PER_MIN), "", "0", "24", false));
        Typed start = new Typed("0", DecimalMark.COMMA, LengthUnit.INCH, SpeedUnit.M_PER_MIN);
        add(Sheet.reading(start, "", true));
        add(Sheet.reading(new Typed("24,02", DecimalMark.COMMA, LengthUnit.INCH, SpeedUnit.M_PER_MIN), "", false));
        fact(FactName.LENGTH_UNIT, "mm");
        fact(FactName.DECIMAL_MARK, "dot");
        assertThat(trial().series().get(0).speedMmPerS()).isEqualTo(50);
        // 24 in = 609.6 mm, 24.02 in = 610.108 mm: the inch is exactly 25.4 mm
        assertThat(findings().passes().get(0).errorMm()).isEqualTo(0.508);
    }

    @Test
    void movesThatGoOnAddUpInsteadOfComingBack() {
        add(Sheet.starting("web", typed("50"), "", "0", "600", true));
        start("0.0");
        read("600.6");
        read("1201.0");
        assertThat(findings().passes()).extracting("errorMm").containsExactly(0.6, 0.4);
        assertThat(findings().cycles()).isEmpty();
    }

    @Test
    void seriesOfOneNameGetNumbers() {
        for (int i = 0; i < 2; i++) {
            series("acoustic felt", "50");
            start("0.0");
            read("600.6");
        }
        assertThat(trial().series()).extracting("name").containsExactly("acoustic-felt-50", "acoustic-felt-50-2");
        assertThat(made().readingOfPass()).isEqualTo(Map.of("acoustic-felt-50/1", 4L, "acoustic-felt-50-2/1", 7L));
    }
}
