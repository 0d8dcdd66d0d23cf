package slowproof.files.in;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.trial.IndicatedSpeed;
import slowproof.trial.IndicatedSpeed.Ripple;
import slowproof.trial.findings.BudgetLine;
import slowproof.trial.findings.BudgetSource;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Flag;
import slowproof.trial.findings.Pass;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.recording.StandstillDrift;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.DemoPlant;
import slowproof.trial.simulator.Drive;
import slowproof.trial.simulator.PassTruth;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.RecorderPlan;
import slowproof.trial.simulator.SeriesPlan;
import slowproof.trial.simulator.SimRecording;
import slowproof.trial.simulator.SimReference;
import slowproof.trial.simulator.SimSensor;
import slowproof.wording.Wording;

class RecordingTrialTest {
    @TempDir
    Path folder;

    private static final String HEAD = """
            trial: "log"
            sensor: {distance_per_count_mm: 0.05, counter_bits: 16}
            reference: {kind: axis, expanded_uncertainty_mm: 0.02}
            limit: {relative_pct: 0.15}
            """;

    /** Forward and back over 600 mm at 100 mm/s, 100 rows a second, sensor over-reading by 1 in 1000. */
    private static String log() {
        StringBuilder out = new StringBuilder("time_s,count,reference_mm\n");
        for (int i = 0; i <= 1800; i++) {
            double t = i / 100.0;
            double position = t < 2 ? 0 : t < 8 ? 100 * (t - 2) : t < 10 ? 600 : t < 16 ? 600 - 100 * (t - 10) : 0;
            // a 16-bit register that begins near its end and wraps on the way
            long count = Math.floorMod(60_000 + Math.round(position * 1.001 / 0.05), 65_536L);
            out.append(t).append(',').append(count).append(',').append(position).append('\n');
        }
        return out.toString();
    }

    private Findings findings(String trial) throws IOException {
        Files.writeString(folder.resolve("run-01.csv"), log());
        Path file = Files.writeString(folder.resolve("trial.yaml"), trial);
        return Evaluation.of(TrialReader.read(file).trial());
    }

    @Test
    void decimalCommasInQuotesGiveThePassesOfTheSameLogWithSemicolons() throws IOException {
        String semicolons = log().replace(',', ';').replace('.', ',');
        String quoted = log().replaceAll("([0-9]+)[.]([0-9]+(?:E-?[0-9]+)?)", "\"$1,$2\"");
        assertThat(quoted).contains("\"0,01\",");
        String dialect = "dialect: {separator: \",\", decimal: \",\"}";
        Files.writeString(folder.resolve("semicolons.csv"), semicolons);
        Files.writeString(folder.resolve("quoted.csv"), quoted);
        Path file = Files.writeString(folder.resolve("trial.yaml"), HEAD + """
                recordings:
                  - {material: felt, speed_mm_s: 100, name: a, file: semicolons.csv}
                  - {material: felt, speed_mm_s: 100, name: b, file: quoted.csv}
                  - {material: felt, speed_mm_s: 100, name: c, file: quoted.csv, %s}
                """.formatted(dialect));
        List<Pass> passes = Evaluation.of(TrialReader.read(file).trial()).passes();
        assertThat(passes).extracting(Pass::id).containsExactly("a/1", "a/2", "b/1", "b/2", "c/1", "c/2");
        for (int i = 2; i < passes.size(); i++) {
            Pass same = passes.get(i % 2);
            assertThat(passes.get(i).errorMm()).isEqualTo(same.errorMm());
            assertThat(passes.get(i).referenceMm()).isEqualTo(same.referenceMm());
            assertThat(passes.get(i).plateauSpeedMmPerS()).isEqualTo(same.plateauSpeedMmPerS());
        }
    }

    @Test
    void aLogBecomesPassesAndACycleThoughTheRegisterWraps() throws IOException {
        Findings findings = findings(HEAD + "recordings:\n  - {material: felt, speed_mm_s: 100, file: run-01.csv}\n");
        assertThat(findings.passes()).extracting(Pass::id).containsExactly("run-01/1", "run-01/2");
        assertThat(findings.passes())
                .allSatisfy(pass -> assertThat(pass.errorMm()).isCloseTo(0.6, within(0.051)));
        assertThat(findings.passes()).extracting(Pass::speedMmPerS).containsOnly(100.0);
        assertThat(findings.cycles()).hasSize(1);
        assertThat(findings.cycles().get(0).closureMm()).isCloseTo(0, within(0.051));
        assertThat(findings.conditions()).allSatisfy(condition -> {
            // the indicated speed over-reads by 1 in 1000 as the length does; counting makes 0.05 / (0.1 sqrt 6) mm/s
            // at most
            IndicatedSpeed speed = Objects.requireNonNull(condition.speed());
            assertThat(speed.error()).isCloseTo(0.001, within(0.0002));
            // the reference steps by 1 mm from row to row and may be no finer: sqrt(2) 0.29 mm in 6 s
            assertThat(speed.standardUncertainty()).isBetween(1e-6, 7e-4);
            Ripple ripple = Objects.requireNonNull(speed.ripple());
            assertThat(ripple.standardDeviation()).isBetween(0.0, 0.0025);
            assertThat(ripple.countingShare()).isBetween(0.3, 1.0);
            assertThat(condition.budget()).extracting(BudgetLine::source).doesNotContain(BudgetSource.STANDSTILL_DRIFT);
        });
    }

    /** Rests of 2 s, in which the sensor gains 0.3 mm each time. */
    @Test
    void driftAtRestIsMeasuredAndGoesIntoTheBudget() throws IOException {
        StringBuilder out = new StringBuilder("time_s,count,reference_mm\n");
        double gained = 0;
        for (int i = 0; i <= 4600; i++) {
            double t = i / 100.0;
            double inCycle = t % 8;
            boolean rests = inCycle < 2 || (inCycle >= 4 && inCycle < 6);
            double position =
                    inCycle < 2 ? 0 : inCycle < 4 ? 100 * (inCycle - 2) : inCycle < 6 ? 200 : 200 - 100 * (inCycle - 6);
            gained += rests ? 0.0015 : 0;
            out.append(t).append(',').append(Math.round((position + gained) / 0.05));
            out.append(',').append(position).append('\n');
        }
        Files.writeString(folder.resolve("run-01.csv"), out);
        Path file = Files.writeString(
                folder.resolve("trial.yaml"),
                HEAD + "recordings:\n  - {material: felt, speed_mm_s: 100, file: run-01.csv}\n");
        LoadedTrial loaded = TrialReader.read(file);
        StandstillDrift drift =
                Objects.requireNonNull(loaded.recordings().get(0).cut().drift());
        assertThat(drift.mmPerMin()).isCloseTo(9, within(3 * drift.standardUncertaintyMmPerMin()));
        assertThat(drift.significant()).isTrue();
        assertThat(Evaluation.of(loaded.trial()).conditions()).allSatisfy(condition -> {
            BudgetLine line = condition.budget().stream()
                    .filter(one -> one.source() == BudgetSource.STANDSTILL_DRIFT)
                    .findFirst()
                    .orElseThrow();
            // drift times dwell as half width of a rectangle, over 200 mm
            double expected = drift.mmPerMin() / 60 * 2 / Math.sqrt(3) / 200;
            assertThat(line.standardUncertainty()).isCloseTo(expected, within(0.05 * expected));
        });
    }

    private Path alone(String keys) throws IOException {
        StringBuilder out = new StringBuilder("time_s,count\n");
        log().lines()
                .skip(1)
                .forEach(line -> out.append(line, 0, line.lastIndexOf(',')).append('\n'));
        Files.writeString(folder.resolve("alone.csv"), out);
        return Files.writeString(
                folder.resolve("trial.yaml"),
                HEAD + "recordings:\n  - {material: felt, speed_mm_s: 100, file: alone.csv" + keys + "}\n");
    }

    private InputProblem refused(String keys) throws IOException {
        try {
            TrialReader.read(alone(keys));
            throw new AssertionError("went through: " + keys);
        } catch (BadInputException e) {
            assertThat(e.problems()).hasSize(1);
            return e.problems().get(0);
        }
    }

    @Test
    void aLogOfTheSensorAloneIsComparedWithTypedReferences() throws IOException {
        for (String typed : List.of("[600.4, 599.9]", "[600.4, -599.9]")) {
            LoadedTrial loaded = TrialReader.read(alone(", reference_per_pass_mm: " + typed));
            assertThat(loaded.recordings().get(0).reason()).isEqualTo("typed reference");
            Findings findings = Evaluation.of(loaded.trial());
            // the sensor shows 600.6 mm each way
            assertThat(findings.passes()).extracting(Pass::referenceMm).containsExactly(600.4, -599.9);
            assertThat(findings.passes().get(0).errorMm()).isCloseTo(0.2, within(0.051));
            assertThat(findings.passes().get(1).errorMm()).isCloseTo(0.7, within(0.051));
            assertThat(findings.passes()).extracting(Pass::speed).containsOnlyNulls();
            assertThat(findings.passes().get(0).plateauSpeedMmPerS()).isCloseTo(100.1, within(0.5));
        }
    }

    @Test
    void typedReferencesThatDoNotFitAreRefusedWithThePassesFound() throws IOException {
        Wording wording = Wording.of(Locale.ENGLISH);
        InputProblem none = refused("");
        assertThat(none.code()).isEqualTo(ProblemCode.REFERENCE_MISSING);
        assertThat(wording.problem(none)).contains("Headings found: time_s, count", "reference_per_pass_mm");
        InputProblem few = refused(", reference_per_pass_mm: [600.4]");
        assertThat(few.code()).isEqualTo(ProblemCode.REFERENCES_DIFFER);
        assertThat(wording.problem(few))
                .contains(
                        "trial.yaml, line 6",
                        "1 length is typed and 2 passes were found",
                        "start and indication: 2.01 s, 600.6 mm; ")
                .doesNotContain("more.");
        InputProblem against = refused(", reference_per_pass_mm: [-600.4, 599.9]");
        assertThat(wording.problem(against)).contains("For pass 1", "\u2212600.4 mm", "reversed: true");
        assertThat(refused(", reference_per_pass_mm: [600.4, 0]").code()).isEqualTo(ProblemCode.NOT_POSITIVE);
        assertThat(refused(", reference_per_pass_mm: [\"600,4\", 599]").code()).isEqualTo(ProblemCode.DECIMAL_COMMA);
        assertThat(refused(", reference_per_pass_mm: [[1], 599]").code()).isEqualTo(ProblemCode.YAML_KIND);
    }

    @Test
    void aReferenceThatIsGivenTwiceIsRefused() throws IOException {
        Files.writeString(folder.resolve("run-01.csv"), log());
        Path file = Files.writeString(
                folder.resolve("trial.yaml"),
                HEAD + "recordings:\n  - {material: felt, sensor_file: run-01.csv, reference_file: run-01.csv,"
                        + " reference_per_pass_mm: [600, 600]}\n");
        assertThatThrownBy(() -> TrialReader.read(file))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        e -> assertThat(e.problems())
                                .extracting(InputProblem::code)
                                .containsExactly(ProblemCode.REFERENCE_TWICE));
    }

    @Test
    void withoutAProgrammedSpeedThePlateauGroupsThePasses() throws IOException {
        Findings findings = findings(HEAD + "recordings:\n  - {material: felt, file: run-01.csv}\n");
        assertThat(findings.conditions()).hasSize(3);
        assertThat(findings.conditions().get(0).key().speedMmPerS()).isCloseTo(100, within(0.5));
    }

    @Test
    void missingFilesAndUnknownColumnsAreRefusedInWords() throws IOException {
        for (String wrong : List.of(
                "recordings:\n  - {material: felt, sensor_file: run-01.csv}\n",
                "recordings:\n  - {material: felt, file: run-01.csv, columns: {tiem: 1}}\n",
                "recordings:\n  - {material: felt, file: run-01.csv, dialect: {decimal: x}}\n")) {
            try {
                findings(HEAD + wrong);
                throw new AssertionError("went through: " + wrong);
            } catch (BadInputException e) {
                assertThat(Wording.of(Locale.ENGLISH).problems(e.problems())).contains("trial.yaml, line 6");
            }
        }
    }

    /** Four passes of the simulated felt, recorded on two clocks; the reference's log carries another heading and unit. */
    private SimRecording writeTwoLogs() throws IOException {
        return writeTwoLogs(120);
    }

    private SimRecording writeTwoLogs(double driftPpm) throws IOException {
        SeriesPlan series = SeriesPlan.alternating("s", DemoPlant.felt(), 300, Drive.of(60, 500), 2);
        BenchPlan plan =
                new BenchPlan(List.of(series), SimSensor.of(0.05), new SimReference(0.002, 0, 0.001), 0, 1.5, 0, null);
        SimRecording sim = Bench.record(plan, 0, RecorderPlan.twoClocks(500, 250, 0.4, driftPpm), RandomStreams.of(3));
        StringBuilder sensor = new StringBuilder("time_s,count,valid\n");
        double[] sensorTime = sim.sensorTimeS();
        long[] count = sim.count();
        for (int i = 0; i < count.length; i++) {
            sensor.append(sensorTime[i]).append(',').append(count[i]).append(',');
            sensor.append(sim.valid()[i] ? 1 : 0).append('\n');
        }
        StringBuilder axis = new StringBuilder("Zeit [ms];Position [cm]\n");
        double[] axisTime = sim.axisTimeS();
        double[] position = sim.axisPositionMm();
        for (int i = 0; i < position.length; i++) {
            axis.append(1000 * axisTime[i]).append(';').append(position[i] / 10).append('\n');
        }
        Files.writeString(folder.resolve("sensor.csv"), sensor);
        Files.writeString(folder.resolve("axis.csv"), axis);
        return sim;
    }

    @Test
    void moreThanOneSignInADialectIsToldWithWhatServesThere() throws IOException {
        Files.writeString(folder.resolve("run-01.csv"), log());
        Path file = Files.writeString(
                folder.resolve("trial.yaml"),
                HEAD + "recordings:\n  - {material: felt, file: run-01.csv,"
                        + " dialect: {comment: \"//\", separator: ab, decimal: cd}}\n");
        assertThatThrownBy(() -> TrialReader.read(file))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(refused.problems())
                                .filteredOn(problem -> problem.code() == ProblemCode.NOT_ONE_SIGN)
                                .extracting(problem -> problem.arguments())
                                .containsExactlyInAnyOrder(
                                        List.of("//", "# % ! / '"), List.of("ab", ", ; tab"), List.of("cd", ". ,")));
    }

    @Test
    void twoLogsOnTwoClocksBecomeOneRecordingWithItsClock() throws IOException {
        SimRecording sim = writeTwoLogs();
        Path file = Files.writeString(
                folder.resolve("trial.yaml"),
                HEAD + "recordings:\n  - {material: felt, sensor_file: sensor.csv, reference_file: axis.csv}\n");
        LoadedTrial loaded = TrialReader.read(file);
        RecordingRead.Clock clock =
                Objects.requireNonNull(loaded.recordings().get(0).clock());
        double truth = sim.truth().referenceTimeS(clock.epochS()) - clock.epochS();
        assertThat(clock.offsetMidS()).isCloseTo(truth, within(4 * clock.offsetMidStandardUncertaintyS()));
        assertThat(clock.offsetMidStandardUncertaintyS()).isLessThan(0.5e-3);
        List<Pass> passes = Evaluation.of(loaded.trial()).passes();
        assertThat(passes).hasSize(4);
        for (int i = 0; i < 4; i++) {
            PassTruth pass = sim.truth().passes().get(i);
            assertThat(passes.get(i).errorMm()).isCloseTo(pass.errorMm(), within(0.05 + 3 * 0.002));
            assertThat(passes.get(i).dropoutPercent()).isCloseTo(100 * pass.dropoutShare(), within(0.5));
        }
    }

    @Test
    void clocksThatRunAtDifferentRatesAreRefusedInWords() throws IOException {
        writeTwoLogs(80_000);
        asks(
                HEAD + "recordings:\n  - {material: felt, sensor_file: sensor.csv, reference_file: axis.csv}\n",
                "different rates",
                "sensor moves while the reference rests");
    }

    @Test
    void logsThatHaveNothingInCommonAreRefusedInWords() throws IOException {
        writeTwoLogs();
        Files.writeString(folder.resolve("axis.csv"), "time_s,reference_mm\n0,1\n1,1\n2,1\n3,1\n");
        Path file = Files.writeString(
                folder.resolve("trial.yaml"),
                HEAD + "recordings:\n  - {material: felt, sensor_file: sensor.csv, reference_file: axis.csv}\n");
        assertThatThrownBy(() -> TrialReader.read(file))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(Wording.of(Locale.ENGLISH).problems(refused.problems()))
                                .contains("trial.yaml, line 6", "hardly any motion in common"));
    }

    /**
     * A log recorded by others: a small optical motion sensor looks at a sphere that is turned by hand. Source:
     * public repository ranczlab/RPM (GPL-3.0). Read in place; without it the test is skipped.
     */
    @Test
    void aLogRecordedByOthersGivesItsLongPass() throws IOException {
        Path log = Path.of(System.getProperty("slowproof.root", "."))
                .resolve("../shared/real/optical-sensor-on-sphere.txt")
                .normalize();
        assumeTrue(Files.exists(log), "the log recorded by others is not here: " + log);
        Path file = Files.writeString(folder.resolve("trial.yaml"), """
                trial: "sphere"
                sensor: {distance_per_count_mm: 0.0470636}
                reference: {name: "encoder of the stage", kind: roll, circumference_mm: 360}
                recordings:
                  - material: polystyrene
                    file: "%s"
                    dialect: {separator: ";", header: false}
                    columns: {time: {column: 5, unit: ms}, count: 2, reference: {column: 4, unit: deg}}
                """.formatted(log));
        Findings findings = Evaluation.of(TrialReader.read(file).trial());
        Pass longest = findings.passes().stream()
                .max(Comparator.comparingDouble(Pass::lengthMm))
                .orElseThrow();
        assertThat(longest.referenceMm()).isNegative();
        assertThat(longest.errorMm()).isCloseTo(12.3, within(0.1));
        assertThat(longest.error()).isCloseTo(0.00082, within(0.00001));
        assertThat(findings.passes()).hasSizeBetween(2, 6);
    }

    private static String questions(BadInputException refused) {
        return Wording.of(Locale.ENGLISH).problems(refused.problems());
    }

    @Test
    void aWrongScaleASensorThatCountsBackwardsAndAWrongEvaluationAreAskedAboutWithTheRemedy() {
        String run = "recordings:\n  - {material: felt, file: run-01.csv}\n";
        // the log counts 0.05 mm: at 1.27 mm, an inch in 20, it shows 25.4 times the travel, at 0.2 mm four times
        assertThatThrownBy(() -> findings(HEAD.replace("0.05,", "1.27,") + run))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(questions(refused))
                                .contains("25.4 times", "distance_per_count_mm", "question_log_scale"));
        assertThatThrownBy(() -> findings(HEAD.replace("0.05,", "0.2,") + run))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(questions(refused))
                                .contains("4 times", "evaluation: x1, x2 or x4", "question_log_evaluation"));
        assertThatThrownBy(() -> findings(HEAD + run.replace("csv}", "csv, reversed: true}")))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(questions(refused))
                                .contains("opposite directions", "reversed: true", "question_log_sign"));
    }

    @Test
    void aQuestionAboutARecordingCanBeConfirmed() throws IOException {
        Findings findings = findings(HEAD.replace("0.05,", "0.2,")
                + "recordings:\n  - {material: felt, file: run-01.csv}\nconfirm: question_log_evaluation\n");
        assertThat(findings.passes().get(0).indicationMm()).isCloseTo(4 * 600.6, within(0.4));
    }

    private void asks(String trial, String question, String... words) {
        assertThatThrownBy(() -> findings(trial))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused ->
                                assertThat(questions(refused)).contains(words).contains(question));
    }

    /** Forward and back over 100 mm at 20 mm/s, five times, a row each 10 ms; what the counter shows is told by a rule. */
    private static String shuttle(DoubleUnaryOperator shown) {
        StringBuilder out = new StringBuilder("time_s,count,reference_mm\n");
        for (int i = 0; i <= 7200; i++) {
            double t = i / 100.0;
            out.append(t).append(',').append(Math.round(shown.applyAsDouble(t) / 0.05));
            out.append(',').append(place(t)).append('\n');
        }
        return out.toString();
    }

    private static double place(double t) {
        double u = t % 14;
        return u < 2 ? 0 : u < 7 ? 20 * (u - 2) : u < 9 ? 100 : 100 - 20 * (u - 9);
    }

    @Test
    void aSensorThatNoRatioExplainsIsAskedAbout() throws IOException {
        String trial = HEAD + "recordings:\n  - {material: felt, file: shuttle.csv}\n";
        Files.writeString(folder.resolve("shuttle.csv"), shuttle(t -> 1000));
        asks(trial, "question_log_slope", "about 0 times");
        Files.writeString(folder.resolve("shuttle.csv"), shuttle(t -> 3 * place(t)));
        asks(trial, "question_log_slope", "about 3 times", "distance_per_count_mm");
        // every way is counted upwards
        Files.writeString(
                folder.resolve("shuttle.csv"),
                shuttle(t -> 200 * Math.floor(t / 14) + (t % 14 < 9 ? place(t) : 200 - place(t))));
        asks(trial, "question_log_return_sign", "only count upwards");
        Files.writeString(folder.resolve("shuttle.csv"), shuttle(RecordingTrialTest::place));
        assertThat(findings(trial).passes()).hasSize(10);
    }

    @Test
    void aRecordingWithoutPassesTellsWhatWasFound() throws IOException {
        Files.writeString(folder.resolve("shuttle.csv"), shuttle(RecordingTrialTest::place));
        String trial =
                HEAD + "recordings:\n  - {material: felt, file: shuttle.csv, dwell_s: 3, standstill_mm_s: 0.1}\n";
        asks(trial, "7201 rows last 72 s", "100 mm in all", "standstills of at least 3 s", "standstill_mm_s");
        // the first way alone, with a register of 1500 counts that the trial does not name
        String rows = shuttle(t -> 0.05 * (Math.round(place(t) / 0.05) % 1500));
        Files.writeString(folder.resolve("shuttle.csv"), rows.substring(0, rows.indexOf("\n9.0,")));
        asks(trial.replace(", dwell_s: 3, standstill_mm_s: 0.1", ""), "counter_bits", "jumps 1 time", "in 2 parts");
    }

    @Test
    void oneLogWithACreepingSensorIsNotTakenForTwoClocks() throws IOException {
        // at rest, too, the sensor counts 0.3 mm a second
        Files.writeString(folder.resolve("shuttle.csv"), shuttle(t -> place(t) + 0.3 * t));
        Findings findings = findings(HEAD + "recordings:\n  - {material: felt, file: shuttle.csv}\n");
        assertThat(findings.passes())
                .hasSize(10)
                .allSatisfy(pass -> assertThat(pass.flags()).contains(Flag.STANDSTILL_DRIFT));
    }

    @Test
    void anAngleThatStartsAgainIsNamedWhereNothingIsLeft() throws IOException {
        String log = shuttle(RecordingTrialTest::place);
        StringBuilder out = new StringBuilder();
        for (String row : log.split("\n")) {
            int cell = row.lastIndexOf(',') + 1;
            boolean head = row.startsWith("time");
            out.append(head ? row : row.substring(0, cell) + Double.parseDouble(row.substring(cell)) % 40)
                    .append('\n');
        }
        Files.writeString(folder.resolve("shuttle.csv"), out);
        asks(HEAD + "recordings:\n  - {material: felt, file: shuttle.csv}\n", "reference jumps 20 times", "runs on");
    }

    @Test
    void aProgrammedSpeedThatWasNotRunIsAskedAbout() throws IOException {
        Files.writeString(folder.resolve("shuttle.csv"), shuttle(RecordingTrialTest::place));
        String trial = HEAD + "recordings:\n  - {material: felt, file: shuttle.csv, speed_mm_s: %s}\n";
        asks(trial.formatted("1200"), "question_log_speed", "1200 mm/s", "20 mm/s", "speed_mm_s");
        asks(trial.formatted("2"), "question_log_speed", "unit of time");
        assertThat(findings(trial.formatted("21")).passes()).hasSize(10);
        assertThat(findings(trial.formatted("1200") + "confirm: question_log_speed\n")
                        .passes())
                .hasSize(10);
    }

    /** Forward and back over 100 mm at 20 mm/s, channel levels at 1 kHz, a period of 0.4 mm. */
    private static String levels() {
        StringBuilder out = new StringBuilder("time_s,channel_a,channel_b,reference_mm\n");
        for (int i = 0; i <= 16_000; i++) {
            double t = i / 1000.0;
            double position = t < 2 ? 0 : t < 7 ? 20 * (t - 2) : t < 9 ? 100 : t < 14 ? 100 - 20 * (t - 9) : 0;
            // a hundredth of a period away from the edges, so that rest does not flicker
            double phase = position / 0.4 + 0.01;
            phase -= Math.floor(phase);
            out.append(t).append(phase < 0.5 ? ",1," : ",0,").append(phase >= 0.25 && phase < 0.75 ? "1," : "0,");
            out.append(position).append('\n');
        }
        return out.toString();
    }

    @Test
    void theSensorSaysWhichEdgesOfTheChannelsCount() throws IOException {
        Files.writeString(folder.resolve("levels.csv"), levels());
        String[] sensors = {"0.1", "0.2, evaluation: x2", "0.4, evaluation: x1"};
        double[] counts = {0.1, 0.2, 0.4};
        for (int k = 0; k < 3; k++) {
            Findings findings = findings("sensor: {distance_per_count_mm: " + sensors[k]
                    + "}\nrecordings:\n  - {material: felt, file: levels.csv}\n");
            assertThat(findings.passes()).hasSize(2);
            for (Pass pass : findings.passes()) {
                assertThat(pass.errorMm()).isCloseTo(0, within(counts[k] + 1e-6));
            }
        }
        assertThatThrownBy(() -> findings("sensor: {evalution: x2}\nrecordings: [{material: f, file: levels.csv}]\n"))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(questions(refused)).contains("\"evaluation\""));
    }
}
