package slowproof.files.in;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.trial.dropout.DropoutLimit;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Direction;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.FloorSpeed;
import slowproof.trial.findings.Material;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;

/**
 * A trial as it comes in by telephone: two surfaces, one cycle here, half a one there, no acceleration. The
 * figures are common practice, no published source; used in tests only.
 */
class CallerTrialTest {
    private static final Path FOLDER = Path.of("src/test/resources/caller");

    @TempDir
    Path temp;

    private static Findings asTyped() {
        return Evaluation.of(TrialReader.read(FOLDER.resolve("trial.yaml")).trial());
    }

    private Path changed(UnaryOperator<String> trial, UnaryOperator<String> readings) throws IOException {
        Files.writeString(
                temp.resolve("readings.csv"), readings.apply(Files.readString(FOLDER.resolve("readings.csv"))));
        return Files.writeString(
                temp.resolve("trial.yaml"), trial.apply(Files.readString(FOLDER.resolve("trial.yaml"))));
    }

    private List<ProblemCode> codes(UnaryOperator<String> trial, UnaryOperator<String> readings) throws IOException {
        Path file = changed(trial, readings);
        try {
            TrialReader.read(file);
            return List.of();
        } catch (BadInputException e) {
            return e.problems().stream().map(InputProblem::code).distinct().toList();
        }
    }

    private static Condition condition(Findings findings, String material, double speed, Direction direction) {
        return findings.conditionsOf(material).stream()
                .filter(row -> row.key().speedMmPerS() == speed && row.direction() == direction)
                .findFirst()
                .orElseThrow();
    }

    private static Material material(Findings findings, String name) {
        return findings.materials().stream()
                .filter(m -> m.material().equals(name))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void errorsAreThoseOfTheTable() {
        Findings findings = asTyped();
        assertThat(100 * condition(findings, "surface-a", 100, Direction.BOTH).meanError())
                .isCloseTo(0.050, within(0.0005));
        assertThat(100 * condition(findings, "surface-a", 50, Direction.BOTH).meanError())
                .isCloseTo(0.033, within(0.0005));
        assertThat(100 * condition(findings, "surface-b", 50, Direction.FORWARD).meanError())
                .isCloseTo(0.100, within(1e-9));
        assertThat(100 * condition(findings, "surface-b", 50, Direction.RETURN).meanError())
                .isCloseTo(0.067, within(0.0005));
        assertThat(condition(findings, "surface-b", 50, Direction.RETURN).meanErrorMm())
                .isCloseTo(0.4, within(1e-12));
        assertThat(100 * condition(findings, "surface-b", 40, Direction.BOTH).meanError())
                .isCloseTo(2.75, within(0.005));
        assertThat(100 * condition(findings, "surface-a", 40, Direction.FORWARD).meanError())
                .isCloseTo(2.17, within(0.005));
    }

    @Test
    void closureSaysWhatTheReadingsSay() {
        List<Double> closures =
                asTyped().cycles().stream().map(cycle -> cycle.closureMm()).toList();
        assertThat(closures).containsExactly(0.0, 0.0, 0.2, 0.0);
    }

    @Test
    void aPassExactlyOnTheLimitCountsAsInside() {
        assertThat(600.6 - 600.0).isNotEqualTo(0.6);
        assertThat(condition(asTyped(), "surface-b", 50, Direction.FORWARD).passesOutside())
                .isZero();
    }

    @Test
    void decisionsAreHonestAboutFewPasses() {
        Findings findings = asTyped();
        assertThat(condition(findings, "surface-b", 50, Direction.BOTH).decision())
                .isEqualTo(Answer.UNDECIDED);
        assertThat(condition(findings, "surface-b", 40, Direction.BOTH).decision())
                .isEqualTo(Answer.DOES_NOT_CONFORM);
        assertThat(condition(findings, "surface-b", 40, Direction.BOTH).repeatability())
                .isNull();
        assertThat(condition(findings, "surface-a", 50, Direction.BOTH).decision())
                .isEqualTo(Answer.CONFORMS);
        assertThat(condition(findings, "surface-a", 40, Direction.FORWARD).decision())
                .isEqualTo(Answer.DOES_NOT_CONFORM);
    }

    @Test
    void floorsAreABracketAndAnOpenQuestion() {
        FloorSpeed a = material(asTyped(), "surface-a").floor();
        assertThat(a.status()).isEqualTo(FloorSpeed.Status.BRACKET);
        assertThat(a.low()).isEqualTo(40);
        assertThat(a.high()).isEqualTo(50);
        assertThat(material(asTyped(), "surface-b").floor().status()).isEqualTo(FloorSpeed.Status.UNDECIDED);
    }

    @Test
    void theDropoutLimitCannotBeLearnedFromFailedPassesAlone() {
        DropoutLimit limit = material(asTyped(), "surface-b").dropoutLimit();
        assertThat(limit.status()).isEqualTo(DropoutLimit.Status.NOT_LEARNABLE);
        assertThat(limit.reason()).isEqualTo(DropoutLimit.Reason.ONLY_FAILED_PASSES);
        assertThat(limit.gapHighPct()).isEqualTo(1.25);
    }

    @Test
    void noPassReachedTheStatedSpeed() {
        assertThat(asTyped().notes()).extracting(Note::code).contains(NoteCode.NO_ANCHOR_PASS);
    }

    @Test
    void theMirroredTableGivesTheSameDecisions() throws IOException {
        Path file = changed(
                text -> text,
                text -> text.replace("600.3", "599.7")
                        .replace("600.2", "599.8")
                        .replace("600.6", "599.4")
                        .replace(",0,0.2,", ",0,-0.2,")
                        .replace("616.5", "583.5")
                        .replace("613.0", "587.0"));
        Findings mirrored = Evaluation.of(TrialReader.read(file).trial());
        Findings straight = asTyped();
        for (int i = 0; i < straight.conditions().size(); i++) {
            Condition one = straight.conditions().get(i);
            Condition other = mirrored.conditions().get(i);
            assertThat(other.meanError()).isCloseTo(-one.meanError(), within(1e-12));
            assertThat(other.decision()).isEqualTo(one.decision());
            assertThat(other.singlePassDecision()).isEqualTo(one.singlePassDecision());
            assertThat(other.passesOutside()).isEqualTo(one.passesOutside());
        }
        assertThat(material(mirrored, "surface-a").floor())
                .isEqualTo(material(straight, "surface-a").floor());
    }

    @Test
    void withoutAReferenceUncertaintyThereIsScreeningOnly() throws IOException {
        Path file = changed(
                text -> text.replaceAll("(?m)^reference:.*$", "reference: {name: axis, kind: axis}"), text -> text);
        Findings findings = Evaluation.of(TrialReader.read(file).trial());
        assertThat(findings.conditions()).extracting(Condition::decision).containsOnly(Answer.SCREENING_ONLY);
        assertThat(findings.conditions())
                .extracting(Condition::conformanceProbability)
                .containsOnlyNulls();
        assertThat(material(findings, "surface-a").floor().status()).isEqualTo(FloorSpeed.Status.UNDECIDED);
    }

    @Test
    void theDisplayedErrorInPlaceOfTheReadingIsQuestioned() throws IOException {
        assertThat(codes(
                        text -> text,
                        text -> text.replace("600.3", "0.3")
                                .replace("600.2", "0.2")
                                .replace("600.6", "0.6")
                                .replace("616.5", "16.5")
                                .replace("613.0", "13.0")))
                .containsExactly(ProblemCode.QUESTION_ERROR_TYPED);
        assertThat(codes(
                        text -> text,
                        text -> text.replace("a-40,surface-a,40,600,613.0", "a-40,surface-a,40,600,13.0")))
                .containsExactly(ProblemCode.QUESTION_ERROR_TYPED);
    }

    @Test
    void aCounterZeroedBeforeEachPassIsQuestioned() throws IOException {
        assertThat(codes(
                        text -> text,
                        text -> text.replace("a-100,surface-a,100,0,0.0", "a-100,surface-a,100,0,-600.3")
                                .replace("a-50,surface-a,50,0,0.0", "a-50,surface-a,50,0,-600.2")
                                .replace("b-50,surface-b,50,0,0.2", "b-50,surface-b,50,0,-600.4")
                                .replace("b-40,surface-b,40,0,0.0", "b-40,surface-b,40,0,-616.5")))
                .containsExactly(ProblemCode.QUESTION_COUNTER_ZEROED);
    }

    @Test
    void aCounterThatIsSaidToBeZeroedIsNoQuestionButHasNoClosure() throws IOException {
        Path file = changed(
                text -> text + "reading_mode: zeroed\n",
                text -> text.replace("a-100,surface-a,100,0,0.0", "a-100,surface-a,100,0,-600.3")
                        .replace("a-50,surface-a,50,0,0.0", "a-50,surface-a,50,0,-600.2")
                        .replace("b-50,surface-b,50,0,0.2", "b-50,surface-b,50,0,-600.4")
                        .replace("b-40,surface-b,40,0,0.0", "b-40,surface-b,40,0,-616.5"));
        Findings findings = Evaluation.of(TrialReader.read(file).trial());
        assertThat(findings.cycles())
                .allSatisfy(cycle -> assertThat(cycle.closureMm()).isNull());
        assertThat(condition(findings, "surface-b", 50, Direction.RETURN).meanErrorMm())
                .isCloseTo(0.4, within(1e-12));
        assertThat(findings.notes()).extracting(Note::code).contains(NoteCode.CLOSURE_NOT_AVAILABLE);
    }

    @Test
    void metresPerSecondUnderAnotherHeadingAreQuestioned() throws IOException {
        assertThat(codes(text -> text, text -> text.replace(",50,", ",0.05,")))
                .containsExactly(ProblemCode.QUESTION_SLOW_MOVE);
    }

    @Test
    void decimalCommasAreNeverReadAsSeparators() throws IOException {
        assertThat(codes(text -> text, text -> text.replace("600.3", "600,3")))
                .containsExactly(ProblemCode.FIELD_COUNT_COMMA);
        assertThat(codes(text -> text, text -> text.replace("600.3", "\"600,3\"")))
                .containsExactly(ProblemCode.DECIMAL_COMMA);
    }

    @Test
    void decimalCommasBetweenSemicolonsAreReadAndSaid() throws IOException {
        Path file = changed(text -> text, text -> text.replace(',', ';').replace('.', ','));
        LoadedTrial loaded = TrialReader.read(file);
        assertThat(loaded.notes()).extracting(Note::code).containsExactly(NoteCode.DECIMAL_COMMA_READ);
        assertThat(Evaluation.of(loaded.trial()).conditions())
                .isEqualTo(asTyped().conditions());
    }

    @Test
    void referenceAndReadingInEachOthersColumnAreQuestioned() throws IOException {
        assertThat(codes(text -> text, text -> text.replace("reference_mm,reading_mm", "reading_mm,reference_mm")))
                .containsExactly(ProblemCode.QUESTION_SWAPPED);
    }

    @Test
    void aMissingSignOfTheReturnIsQuestioned() throws IOException {
        assertThat(codes(
                        text -> text,
                        text -> text.replace(
                                        "a-100,surface-a,100,0,0.0,\na-100,surface-a,100,600,600.3",
                                        "a-100,surface-a,100,0,1200.6")
                                .replace("a-50,surface-a,50,0,0.0", "a-50,surface-a,50,0,1200.4")
                                .replace("b-50,surface-b,50,0,0.2", "b-50,surface-b,50,0,1201.0")
                                .replace("b-40,surface-b,40,0,0.0", "b-40,surface-b,40,0,1233.0")))
                .containsExactly(ProblemCode.QUESTION_RETURN_SIGN);
    }

    @Test
    void aMisplacedDecimalPointIsQuestionedOnce() throws IOException {
        Path file = changed(
                text -> text, text -> text.replace("b-50,surface-b,50,600,600.6", "b-50,surface-b,50,600,60.06"));
        try {
            TrialReader.read(file);
        } catch (BadInputException e) {
            assertThat(e.problems()).extracting(InputProblem::code).containsExactly(ProblemCode.QUESTION_DIGIT);
            assertThat(e.problems().get(0).at().line()).isEqualTo(10);
            return;
        }
        throw new AssertionError("60.06 for 600.6 went through");
    }

    @Test
    void aConfirmedQuestionIsNoLongerAsked() throws IOException {
        Path file = changed(
                text -> text + "confirm: [question_error_typed]\n",
                text -> text.replace("a-40,surface-a,40,600,613.0", "a-40,surface-a,40,600,13.0"));
        assertThat(TrialReader.read(file).notes()).extracting(Note::code).containsExactly(NoteCode.CONFIRMED);
    }

    @Test
    void aFileThatBreaksOffInItsLastNumberIsQuestioned() throws IOException {
        String rows = """
                series,material,speed_mm_s,reference_mm,reading_mm
                a,surface-a,100,0,0.0
                a,surface-a,100,600,600.3
                a,surface-a,100,0,0.1
                a,surface-a,100,600,600.2""";
        assertThat(codes(text -> text, text -> rows)).isEmpty();
        for (int length : new int[] {1, 2}) {
            String cut = rows.substring(0, rows.length() - length);
            assertThat(codes(text -> text, text -> cut)).as(cut).containsExactly(ProblemCode.QUESTION_CUT_SHORT);
            assertThat(codes(text -> text, text -> cut + "\n")).as(cut).isEmpty();
            Path confirmed = changed(text -> text + "confirm: question_cut_short\n", text -> cut);
            assertThat(TrialReader.read(confirmed).notes())
                    .extracting(Note::code)
                    .containsExactly(NoteCode.CONFIRMED);
        }
        // a zero typed without decimals says nothing
        assertThat(codes(text -> text, text -> rows.replace("0.0\n", "0\n") + "\na,surface-a,100,0,0"))
                .isEmpty();
    }

    @Test
    void aSignThatMaySeparateThousandsIsQuestioned() throws IOException {
        String rows = """
                series;material;speed_mm_s;reference_mm;reading_mm
                a;surface-a;;0;0
                a;surface-a;60;900;901
                a;surface-a;60;1.800;1.802
                a;surface-a;60;900;901
                a;surface-a;60;0;0
                """;
        assertThat(codes(text -> text, text -> rows)).contains(ProblemCode.QUESTION_THOUSANDS);
        assertThat(codes(text -> text, text -> rows.replace(";900;901", ";1.2;1.201")))
                .isEmpty();
        // a zero alone raises the question where thousandths are seldom read
        assertThat(codes(text -> text, text -> rows.replace(";900;901", ";1.700;1.701")))
                .containsExactly(ProblemCode.QUESTION_THOUSANDS);
        assertThat(codes(
                        text -> text,
                        text -> rows.replace(";900;901", ";1.700;1.701")
                                .replace("_mm\n", "_m\n")
                                .replace("reference_mm", "reference_m")))
                .isEmpty();
    }
}
