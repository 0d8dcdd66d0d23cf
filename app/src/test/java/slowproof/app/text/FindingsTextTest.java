package slowproof.app.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import slowproof.files.in.TrialReader;
import slowproof.trial.Exclusion;
import slowproof.trial.Limit;
import slowproof.trial.Trial;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Material;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.DemoPlant;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.SimulatedTrial;
import slowproof.wording.Units;
import slowproof.wording.Wording;

/** The printed page of invented trials. */
class FindingsTextTest {
    private static final Path ROOT = Path.of(System.getProperty("slowproof.root"));
    private static final Wording ENGLISH = Wording.of(Locale.ENGLISH);

    private static Trial trial(String folder) {
        return TrialReader.read(ROOT.resolve("files/src/test/resources/" + folder + "/trial.yaml"))
                .trial();
    }

    private static String page(String folder, int width) {
        return FindingsText.render(Evaluation.of(trial(folder)), ENGLISH, false, width);
    }

    private static String withoutStyle(String text) {
        return text.replaceAll("\u001b\\[\\d+m", "");
    }

    @Test
    void workedExampleReadsAsItsGoldenPage() throws IOException {
        // after a wanted change: look at the page, then replace the file
        Path golden = ROOT.resolve("app/src/test/resources/text/worked-example.txt");
        assertThat(page("worked-example", 100)).isEqualTo(Files.readString(golden));
    }

    @Test
    void callersTrialReadsAsItsGoldenPage() throws IOException {
        Path golden = ROOT.resolve("app/src/test/resources/text/caller-80-columns.txt");
        assertThat(page("caller", 80)).isEqualTo(Files.readString(golden));
    }

    @Test
    void answerComesBeforeWhatItRestsOn() {
        String page = page("worked-example", 100);
        assertThat(page.indexOf("Answer")).isLessThan(page.indexOf("Conditions: "));
        assertThat(page.indexOf("Conditions: ")).isLessThan(page.indexOf("Uncertainty where"));
        assertThat(page.indexOf("Uncertainty where")).isLessThan(page.indexOf("Cautions"));
    }

    @Test
    void aLadderIsSummedUpOverAllSpeeds() {
        BenchPlan plan = DemoPlant.plan(Instant.EPOCH);
        Limit limit = Limit.of(DemoPlant.LIMIT_RATIO, DemoPlant.LIMIT_MM);
        Findings findings =
                Evaluation.of(SimulatedTrial.of("invented", plan, Bench.read(plan, RandomStreams.of(1)), limit));
        String page = FindingsText.render(findings, ENGLISH, false, 100);
        for (Material material : findings.materials()) {
            String part = page.substring(page.indexOf("Over all speeds: " + material.material()));
            assertThat(material.passScatterMm())
                    .as("two strokes in one condition do not count as scatter")
                    .isLessThan(0.2);
            assertThat(part.substring(0, part.indexOf("\n\n")))
                    .contains("Floor speed", "judged over 900 mm", "Error curve", "at 400 mm/s (k = 2)")
                    .contains("Scale error", "Start loss", "for one metre of", "Compensation", "Dropouts");
        }
        String closure = page.substring(page.indexOf("Closure of cycles"));
        assertThat(closure.substring(0, closure.indexOf("Closure is what")))
                .as("the speeds of a long ladder are summed up")
                .contains("5 to 400");
        assertThat(FindingsText.render(findings, Wording.of(Locale.GERMAN), false, 100)
                        .lines())
                .allSatisfy(line -> assertThat(Cells.width(line)).isLessThanOrEqualTo(100));
    }

    @Test
    void aFloorSaysForWhichLengthItHoldsWhereAShorterStrokeFails() {
        BenchPlan plan = DemoPlant.plan(Instant.EPOCH);
        Limit limit = Limit.of(DemoPlant.LIMIT_RATIO, DemoPlant.LIMIT_MM);
        Trial trial = SimulatedTrial.of("invented", plan, Bench.read(plan, RandomStreams.of(1)), limit);
        Findings findings = Evaluation.of(trial);
        boolean shortStrokeFailsAboveTheFloor = findings.materials().stream()
                .anyMatch(material -> material.floor().estimate() != null
                        && findings.leading(material.material()).stream()
                                .anyMatch(row -> row.key().speedMmPerS()
                                                > material.floor().estimate()
                                        && row.singlePassDecision() == Answer.DOES_NOT_CONFORM));
        assertThat(FindingsText.render(findings, ENGLISH, false, 400).contains(", judged over 900 mm; over "))
                .isEqualTo(shortStrokeFailsAboveTheFloor);
    }

    @Test
    void noLineIsWiderThanThePage() {
        Findings findings = Evaluation.of(trial("worked-example"));
        for (Wording wording : List.of(ENGLISH, Wording.of(Locale.GERMAN))) {
            for (int width : new int[] {80, 100, 140}) {
                assertThat(FindingsText.render(findings, wording, false, width).lines())
                        .allSatisfy(line -> assertThat(Cells.width(line)).isLessThanOrEqualTo(width));
                assertThat(FindingsText.explain(wording, false, width).lines())
                        .allSatisfy(line -> assertThat(Cells.width(line)).isLessThanOrEqualTo(width));
            }
        }
    }

    @Test
    void colourAddsNothingThatWordsDoNotSay() {
        Findings findings = Evaluation.of(trial("caller"));
        String plain = FindingsText.render(findings, ENGLISH, false, 100);
        String coloured = FindingsText.render(findings, ENGLISH, true, 100);
        assertThat(plain).doesNotContain("\u001b");
        assertThat(coloured).contains("\u001b[33m");
        assertThat(withoutStyle(coloured)).isEqualTo(plain);
    }

    @Test
    void wideTerminalShowsTheAnswerOfTheMeanToo() {
        assertThat(page("worked-example", 140)).contains("mean error").doesNotContain("No room here for");
    }

    @Test
    void exclusionsAreShownWithReasonAndBothResults() {
        Trial trial = trial("worked-example")
                .excluding(List.of(new Exclusion("felt-63/4", "cable caught", SourcePosition.ofFile("trial.yaml"))));
        String page = FindingsText.render(Evaluation.of(trial), ENGLISH, false, 120);
        assertThat(page)
                .contains("1 pass was left out for a stated reason;")
                .contains("felt-63/4: cable caught")
                .containsPattern("acoustic felt +63 +return +without +4 ")
                .containsPattern("acoustic felt +63 +return +with +5 ");
    }

    @Test
    void textOfTheTrialCannotControlTheTerminal() {
        Trial trial = trial("caller");
        Trial evil = new Trial(
                "title\u001b[2J",
                trial.sensor(),
                trial.reference(),
                trial.limit(),
                trial.stated(),
                trial.setup(),
                trial.rule(),
                trial.mode(),
                trial.series(),
                trial.recorded(),
                trial.pieces(),
                List.of(new Exclusion("a-40/1", "reason\u001b[31m", SourcePosition.ofFile("trial.yaml"))));
        assertThat(FindingsText.render(Evaluation.of(evil), ENGLISH, false, 100))
                .doesNotContain("\u001b")
                .contains("title\ufffd[2J");
    }

    @Test
    void speedsAndLengthsFollowTheUnitsPreferred() {
        Wording feet = Wording.of(Locale.ENGLISH, new Units(Units.Length.INCH, Units.Speed.FT_PER_MIN));
        String page = FindingsText.render(Evaluation.of(trial("caller")), feet, false, 100);
        assertThat(page).contains("19.685 ft/min").contains(" in on 23.62 in");
    }

    @Test
    void bothLanguagesHaveTheSameSections() {
        Findings findings = Evaluation.of(trial("caller"));
        long english = headings(FindingsText.render(findings, ENGLISH, false, 100));
        long german = headings(FindingsText.render(findings, Wording.of(Locale.GERMAN), false, 100));
        assertThat(german).isEqualTo(english).isEqualTo(11);
    }

    private static long headings(String page) {
        return page.lines()
                .filter(line -> !line.isEmpty() && !line.startsWith(" "))
                .count();
    }
}
