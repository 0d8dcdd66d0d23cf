package slowproof.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import slowproof.trial.findings.Answer;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;

class WordingTest {
    private static final Wording ENGLISH = Wording.of(Locale.ENGLISH);
    private static final Wording GERMAN = Wording.of(Locale.GERMANY);

    @Test
    void problemNamesPlaceFindingAndRemedy() {
        InputProblem problem = InputProblem.of(
                ProblemCode.NOT_A_NUMBER, new SourcePosition("bench-07.csv", 1842, 3, "length_mm"), "12,5O7", ".");
        assertThat(ENGLISH.problem(problem))
                .isEqualTo(
                        "bench-07.csv, line 1842, column 3 (length_mm): \"12,5O7\" is not a number. Write digits with"
                                + " the decimal sign \".\" and no unit; the unit stands in the heading or key.");
        assertThat(GERMAN.problem(problem))
                .startsWith("bench-07.csv, Zeile 1842, Spalte 3 (length_mm): \u201e12,5O7\u201c ist keine Zahl.");
    }

    @Test
    void problemOfAWholeFileNamesNoLine() {
        assertThat(ENGLISH.problem(InputProblem.of(ProblemCode.FILE_EMPTY, SourcePosition.ofFile("a.csv"))))
                .startsWith("a.csv: The file is empty.");
    }

    @Test
    void nearestKnownKeyIsLeftOutWhenThereIsNone() {
        SourcePosition at = new SourcePosition("trial.yaml", 4, 3, "");
        assertThat(ENGLISH.problem(InputProblem.of(ProblemCode.UNKNOWN_KEY, at, "limmit", "limit")))
                .contains("The nearest known one is \"limit\".");
        assertThat(ENGLISH.problem(InputProblem.of(ProblemCode.UNKNOWN_KEY, at, "xyz", "")))
                .isEqualTo("trial.yaml, line 4, column 3: Key \"xyz\" is not known here. Correct it or remove it.");
    }

    @Test
    void questionTellsHowToConfirm() {
        InputProblem problem = InputProblem.of(
                ProblemCode.QUESTION_SLOW_MOVE,
                new SourcePosition("readings.csv", 3, 3, "speed_mm_s"),
                "felt-63",
                Quantity.mmPerS(0.25),
                Quantity.mm(900),
                new Quantity(1, Unit.HOUR));
        assertThat(ENGLISH.problem(problem))
                .contains("is the speed of 0.25 mm/s right? A move of 900 mm would take 1 h.")
                .endsWith("If it is right as it stands, add question_slow_move to confirm: in the trial.");
    }

    @Test
    void firstTwentyProblemsAreShownByPlaceAndTheRestIsCounted() {
        List<InputProblem> problems = new ArrayList<>();
        for (int line = 2; line < 34; line++) {
            problems.add(InputProblem.of(ProblemCode.VALUE_MISSING, new SourcePosition("a.csv", line, 2, "x_mm")));
        }
        Collections.reverse(problems);
        String[] lines = ENGLISH.problems(problems).split("\n");
        assertThat(lines).hasSize(21);
        assertThat(lines[0]).startsWith("a.csv, line 2, ");
        assertThat(lines[19]).startsWith("a.csv, line 21, ");
        assertThat(lines[20]).isEqualTo("and 12 more problems");
        assertThat(GERMAN.problems(problems.subList(0, 21))).endsWith("und 1 weiteres Problem\n");
    }

    @Test
    void textFromFilesCannotControlTheTerminal() {
        String evil = "\u001b[31mred\u202e" + "x".repeat(500);
        String text = ENGLISH.problem(
                InputProblem.of(ProblemCode.NOT_A_NUMBER, new SourcePosition("a\u0007.csv", 1, 1, ""), evil));
        assertThat(text.chars()).noneMatch(Character::isISOControl);
        assertThat(text).contains("\ufffd[31mred\ufffd").contains("\u2026").hasSizeLessThan(500);
    }

    @Test
    void bracesOfAnArgumentAreNotPlaceholders() {
        assertThat(ENGLISH.note(Note.of(NoteCode.EXCLUDED, "a/1", "{0} and {1}")))
                .isEqualTo("Left out by a person: {0} and {1}");
    }

    @Test
    void noteSpeaksTheAnswersOfItsLanguage() {
        Note note = Note.of(
                NoteCode.MEAN_AND_SINGLE_PASS_DIFFER,
                "felt, 12.5 mm/s, 500 mm/s\u00b2, return",
                Answer.CONFORMS.key(),
                Answer.UNDECIDED.key());
        assertThat(ENGLISH.note(note)).contains("Mean: conforms. Single pass: undecided.");
        assertThat(GERMAN.note(note))
                .contains("Mittelwert: h\u00e4lt die Grenze ein. Einzelner Durchgang: unentschieden.");
        assertThat(ENGLISH.where(note)).isEqualTo("felt, 12.5 mm/s, 500 mm/s\u00b2, return");
        assertThat(GERMAN.where(note)).isEqualTo("felt, 12,5 mm/s, 500 mm/s\u00b2, zur\u00fcck");
    }

    @Test
    void countsChooseTheirWord() {
        assertThat(ENGLISH.note(Note.of(NoteCode.MORE_PASSES_WOULD_DO, "", 1, 1L, "forward")))
                .contains("after 1 pass.")
                .contains("about 1 more pass would");
        assertThat(ENGLISH.note(Note.of(NoteCode.MORE_PASSES_WOULD_DO, "", 10, 3L, "both")))
                .contains("after 10 passes.")
                .contains("about 3 more passes in each direction would");
    }

    @Test
    void quantitiesFollowTheUnitsPreferred() {
        Quantity speed = Quantity.mmPerS(500);
        assertThat(Wording.of(Locale.ENGLISH).quantity(Quantity.moment(7321.4567)))
                .isEqualTo("7321.457 s");
        assertThat(Wording.of(Locale.ENGLISH, new Units(Units.Length.M, Units.Speed.M_PER_MIN))
                        .quantity(speed))
                .isEqualTo("30 m/min");
        Wording feet = Wording.of(Locale.ENGLISH, new Units(Units.Length.INCH, Units.Speed.FT_PER_MIN));
        assertThat(feet.quantity(speed)).isEqualTo("98.425 ft/min");
        assertThat(feet.quantity(Quantity.mm(25.4))).isEqualTo("1 in");
        assertThat(ENGLISH.quantity(Quantity.mm(1842.55))).isEqualTo("1842.55 mm");
        assertThat(GERMAN.quantity(Quantity.percent(-0.0133333))).isEqualTo("\u22120,0133 %");
    }

    @Test
    void unknownLanguageIsAnsweredInEnglish() {
        assertThat(Wording.of(Locale.FRENCH).answer(Answer.UNDECIDED)).isEqualTo("undecided");
    }
}
