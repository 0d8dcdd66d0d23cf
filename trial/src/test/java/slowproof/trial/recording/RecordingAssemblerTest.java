package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import slowproof.trial.counts.CounterRegister;
import slowproof.trial.counts.Quadrature.Evaluation;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;

class RecordingAssemblerTest {
    private static final double Q = 0.05;

    private static LoggedColumns log(double[] time, double[] count, double[] reference) {
        return Logs.counts(time, count, reference, null);
    }

    private static Bench.Truth twoMoves() {
        return new Bench(0.01)
                .rest(2)
                .move(5000, 1000, 2000, 2000)
                .rest(2)
                .move(-5000, 1000, 2000, 2000)
                .rest(2)
                .done();
    }

    private static double[] wrapped(double[] counts, CounterRegister register) {
        double[] count = counts.clone();
        for (int i = 0; i < count.length; i++) {
            count[i] = Math.floorMod((long) (count[i] - register.smallest()), (long) register.range())
                    + register.smallest();
        }
        return count;
    }

    @Test
    void wrappingRegistersGiveTheSamePassesAsACounterThatNeverWraps() {
        Bench.Truth truth = twoMoves();
        double[] plain = truth.counts(Q, 0.001);
        PassSearch expected = PassFinder.find(
                RecordingAssembler.assemble(log(truth.timeS(), plain, truth.positionMm()), SensorScale.ofCounts(Q)));
        for (CounterRegister register : new CounterRegister[] {
            new CounterRegister(16, false), new CounterRegister(16, true), new CounterRegister(24, true)
        }) {
            Recording recording = RecordingAssembler.assemble(
                    log(truth.timeS(), wrapped(plain, register), truth.positionMm()),
                    new SensorScale(Q, register, null, Evaluation.X4));
            PassSearch search = PassFinder.find(recording);
            assertThat(search.passes()).hasSize(2);
            for (int k = 0; k < 2; k++) {
                assertThat(search.passes().get(k).indicationMm())
                        .isCloseTo(expected.passes().get(k).indicationMm(), within(1e-9));
            }
            if (register.bits() == 16) {
                assertThat(recording.notes()).extracting(Note::code).containsExactly(NoteCode.LOG_COUNTER_WRAPPED);
            }
        }
    }

    @Test
    void registerThatMayHaveGoneHalfRoundBetweenRowsIsRefused() {
        Bench.Truth truth = twoMoves();
        double[] plain = truth.counts(Q, 0.001);
        CounterRegister register = new CounterRegister(8, false);
        // 1000 mm/s in 10 ms are 200 counts, an 8-bit register follows 127
        assertThatThrownBy(() -> RecordingAssembler.assemble(
                        log(truth.timeS(), wrapped(plain, register), truth.positionMm()),
                        new SensorScale(Q, register, null, Evaluation.X4)))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(refused.problems().get(0).code())
                                .isEqualTo(ProblemCode.LOG_COUNTER_AMBIGUOUS));
    }

    @Test
    void acrossMissingRowsTheReferenceTellsHowOftenTheRegisterWentRound() {
        CounterRegister register = new CounterRegister(12, false);
        // 4096 counts of 0.05 mm are 204.8 mm; 0.3 s at 1000 mm/s are 300 mm, one turn and a half
        Bench.Truth truth = twoMoves();
        double[] time = truth.timeS();
        double[] count = wrapped(truth.counts(Q, 0), register);
        double[] reference = truth.positionMm();
        int[] rows = java.util.stream.IntStream.range(0, time.length)
                .filter(i -> time[i] < 3 || time[i] >= 3.3)
                .toArray();
        Recording recording = RecordingAssembler.assemble(
                log(
                        java.util.Arrays.stream(rows).mapToDouble(i -> time[i]).toArray(),
                        java.util.Arrays.stream(rows).mapToDouble(i -> count[i]).toArray(),
                        java.util.Arrays.stream(rows)
                                .mapToDouble(i -> reference[i])
                                .toArray()),
                new SensorScale(Q, register, null, Evaluation.X4));
        assertThat(recording.breaks()).hasSize(1);
        FoundPass pass = PassFinder.find(recording).passes().get(0);
        assertThat(pass.indicationMm()).isCloseTo(5000, within(Q));
        assertThat(pass.flags()).containsExactly(PassFlag.GAP_IN_PASS);
    }

    @Test
    void valueBeyondTheRegisterIsRefusedWithItsLine() {
        assertThatThrownBy(() -> RecordingAssembler.assemble(
                        log(new double[] {0, 1, 2}, new double[] {0, 70_000, 3}, new double[] {0, 0, 0}),
                        new SensorScale(Q, new CounterRegister(16, false), null, Evaluation.X4)))
                .isInstanceOfSatisfying(BadInputException.class, refused -> {
                    assertThat(refused.problems().get(0).code()).isEqualTo(ProblemCode.LOG_COUNT_BEYOND_REGISTER);
                    assertThat(refused.problems().get(0).at().line()).isEqualTo(3);
                });
    }

    @Test
    void clockThatJumpsBackCutsTheRecording() {
        double[] time = new double[200];
        double[] zero = new double[200];
        for (int i = 0; i < 200; i++) {
            time[i] = (i < 100 ? 10 : 5) + 0.01 * i;
        }
        Recording recording = RecordingAssembler.assemble(log(time, zero, zero), SensorScale.ofCounts(Q));
        assertThat(recording.segments()).containsExactly(new Segment(0, 100), new Segment(100, 200));
        assertThat(recording.notes()).extracting(Note::code).containsExactly(NoteCode.LOG_CLOCK_BACK);
        assertThat(recording.breaks().get(0).line()).isEqualTo(102);
    }

    @Test
    void shuffledRowsAreRefused() {
        double[] time = new double[200];
        for (int i = 0; i < 200; i++) {
            time[i] = (i * 37) % 200;
        }
        assertThatThrownBy(() -> RecordingAssembler.assemble(
                        log(time, new double[200], new double[200]), SensorScale.ofCounts(Q)))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused ->
                                assertThat(refused.problems().get(0).code()).isEqualTo(ProblemCode.LOG_TIME_UNSORTED));
    }

    @Test
    void repeatedTimesKeepTheLastRowAndAreCounted() {
        Recording recording = RecordingAssembler.assemble(
                log(new double[] {0, 1, 1, 1, 2, 3}, new double[] {0, 1, 2, 3, 4, 5}, new double[6]),
                SensorScale.ofCounts(1));
        assertThat(recording.timeS().toArray()).containsExactly(0, 1, 2, 3);
        assertThat(recording.indicationMm().toArray()).containsExactly(0, 3, 4, 5);
        assertThat(recording.notes()).extracting(Note::code).containsExactly(NoteCode.LOG_TIMES_REPEATED);
        assertThat(recording.notes().get(0).arguments()).containsExactly(2, 6);
    }

    @Test
    void rowsWithoutAValueAreLeftOutAndCounted() {
        Recording recording = RecordingAssembler.assemble(
                log(new double[] {0, 1, 2, 3}, new double[] {0, Double.NaN, 2, 3}, new double[4]),
                SensorScale.ofCounts(1));
        assertThat(recording.size()).isEqualTo(3);
        assertThat(recording.notes()).extracting(Note::code).containsExactly(NoteCode.LOG_ROWS_LEFT_OUT);
    }

    @Test
    void counterAndReferenceSetToZeroTogetherAreNoPass() {
        Bench.Truth truth = twoMoves();
        double[] count = truth.counts(Q, 0.001);
        double[] position = truth.positionMm().clone();
        for (int i = 0; i < count.length; i++) {
            if (truth.timeS()[i] >= 8.5) {
                count[i] -= Math.floor(5000 * 1.001 / Q);
                position[i] -= 5000;
            }
        }
        Recording recording = RecordingAssembler.assemble(log(truth.timeS(), count, position), SensorScale.ofCounts(Q));
        assertThat(recording.breaks()).extracting(Break::cause).containsExactly(Break.Cause.BOTH_ZEROED);
        assertThat(recording.notes()).extracting(Note::code).containsExactly(NoteCode.LOG_BOTH_ZEROED);
        PassSearch search = PassFinder.find(recording);
        assertThat(search.passes()).hasSize(2);
        assertThat(search.passes().get(1).errorMm()).isCloseTo(5, within(Q));
    }

    @Test
    void counterSetToZeroAtRestCutsThereAndBothPassesStayRight() {
        Bench.Truth truth = twoMoves();
        double[] count = truth.counts(Q, 0);
        int reset = 0;
        while (truth.timeS()[reset] < 8.5) {
            reset++;
        }
        double before = count[reset];
        for (int i = reset; i < count.length; i++) {
            count[i] -= before;
        }
        Recording recording =
                RecordingAssembler.assemble(log(truth.timeS(), count, truth.positionMm()), SensorScale.ofCounts(Q));
        assertThat(recording.breaks()).extracting(Break::cause).containsExactly(Break.Cause.COUNTER_STEP);
        PassSearch search = PassFinder.find(recording);
        assertThat(search.passes()).hasSize(2);
        assertThat(search.passes().get(0).indicationMm()).isCloseTo(5000, within(Q));
        assertThat(search.passes().get(1).indicationMm()).isCloseTo(-5000, within(Q));
        assertThat(search.passes().get(1).joined()).isFalse();
    }

    /** Two ways of 300 mm at 100 mm/s to and fro, 50 rows a second, with what happens to the reference. */
    private static PassSearch withReference(DoubleUnaryOperator seen, Break.Cause... causes) {
        Bench.Truth truth = new Bench(0.02)
                .rest(2)
                .move(300, 100, 200, 200)
                .rest(2)
                .move(-300, 100, 200, 200)
                .rest(2)
                .done();
        double[] place = truth.positionMm();
        double[] reference = new double[place.length];
        for (int i = 0; i < place.length; i++) {
            reference[i] = place[i] + seen.applyAsDouble(i * 0.02);
        }
        Recording recording = RecordingAssembler.assemble(
                log(truth.timeS(), truth.counts(Q, 0.001), reference), SensorScale.ofCounts(Q));
        assertThat(recording.breaks()).extracting(Break::cause).containsExactly(causes);
        assertThat(recording.notes())
                .extracting(Note::code)
                .isEqualTo(causes.length == 0 ? List.of() : List.of(NoteCode.LOG_REFERENCE_STEP));
        return PassFinder.find(recording);
    }

    @Test
    void referenceSetToZeroAtRestCutsThereAndBothPassesStayRight() {
        PassSearch search = withReference(t -> t < 6.5 ? 0 : -300, Break.Cause.REFERENCE_STEP);
        assertThat(search.passes())
                .extracting(FoundPass::referenceMm)
                .usingComparatorForType((a, b) -> Math.abs(a - b) < 0.01 ? 0 : 1, Double.class)
                .containsExactly(300.0, -300.0);
    }

    @Test
    void anAngleThatStartsAgainOnTheWayLosesThatPassOnly() {
        PassSearch search = withReference(t -> t < 4 ? 0 : -360, Break.Cause.REFERENCE_STEP);
        assertThat(search.passes())
                .singleElement()
                .satisfies(pass -> assertThat(pass.referenceMm()).isCloseTo(-300, within(0.01)));
    }

    @Test
    void aNumberThatStandsForNoneMakesNoPass() {
        PassSearch search = withReference(
                t -> t > 3.99 && t < 4.05 ? 9999 : 0, Break.Cause.REFERENCE_STEP, Break.Cause.REFERENCE_STEP);
        assertThat(search.passes())
                .singleElement()
                .satisfies(pass -> assertThat(pass.referenceMm()).isCloseTo(-300, within(0.01)));
    }

    @Test
    void aReferenceThatIsWrittenLessOftenThanTheLogIsNotCut() {
        Bench.Truth truth =
                new Bench(0.02).rest(2).move(300, 100, 200, 200).rest(2).done();
        double[] place = truth.positionMm();
        double[] held = new double[place.length];
        for (int i = 0; i < place.length; i++) {
            held[i] = place[i - i % 25];
        }
        Recording recording =
                RecordingAssembler.assemble(log(truth.timeS(), truth.counts(Q, 0.001), held), SensorScale.ofCounts(Q));
        assertThat(recording.breaks()).isEmpty();
    }

    @Test
    void noRowIsMissingInAListOfEdges() {
        Bench.Truth truth = new Bench(0.0005)
                .rest(2)
                .move(100, 40, 100, 100)
                .rest(2)
                .move(-100, 10, 100, 100)
                .rest(2)
                .done();
        double[] place = truth.positionMm();
        int[] steps = Arrays.stream(place)
                .mapToInt(x -> (int) Math.floor(x / Q + 0.3))
                .toArray();
        int[] rows = IntStream.range(0, place.length)
                .filter(i -> i == 0 || steps[i] != steps[i - 1])
                .toArray();
        double[] a = new double[rows.length];
        double[] b = new double[rows.length];
        for (int k = 0; k < rows.length; k++) {
            int phase = Math.floorMod(steps[rows[k]], 4);
            a[k] = phase == 1 || phase == 2 ? 1 : 0;
            b[k] = phase == 2 || phase == 3 ? 1 : 0;
        }
        Recording recording = RecordingAssembler.assemble(
                Logs.levels(
                        Arrays.stream(rows).mapToDouble(i -> truth.timeS()[i]).toArray(),
                        a,
                        b,
                        Arrays.stream(rows).mapToDouble(i -> place[i]).toArray()),
                SensorScale.ofCounts(Q));
        assertThat(recording.notes()).isEmpty();
        assertThat(PassFinder.find(recording).passes())
                .isNotEmpty()
                .allSatisfy(pass -> assertThat(pass.flags()).doesNotContain(PassFlag.GAP_IN_PASS));
    }

    @Test
    void channelLevelsAreCountedAndIllegalTransitionsTimed() {
        Bench.Truth truth =
                new Bench(0.0005).rest(1).move(100, 50, 400, 400).rest(1).done();
        int rows = truth.timeS().length;
        double[] a = new double[rows];
        double[] b = new double[rows];
        for (int i = 0; i < rows; i++) {
            int phase = Math.floorMod((int) Math.floor(truth.positionMm()[i] / Q), 4);
            a[i] = phase == 1 || phase == 2 ? 1 : 0;
            b[i] = phase == 2 || phase == 3 ? 1 : 0;
        }
        LoggedColumns log = Logs.levels(truth.timeS(), a, b, truth.positionMm());
        FoundPass pass = PassFinder.find(RecordingAssembler.assemble(log, SensorScale.ofCounts(Q)))
                .passes()
                .get(0);
        assertThat(pass.indicationMm()).isCloseTo(100, within(Q));
        assertThat(pass.flags()).isEmpty();

        // one sample in the plateau shows both channels turned over: two illegal transitions, there and back
        int spoiled = rows / 2;
        a[spoiled] = 1 - a[spoiled - 1];
        b[spoiled] = 1 - b[spoiled - 1];
        a[spoiled + 1] = a[spoiled - 1];
        b[spoiled + 1] = b[spoiled - 1];
        Recording recording = RecordingAssembler.assemble(
                Logs.levels(truth.timeS(), a, b, truth.positionMm()), SensorScale.ofCounts(Q));
        assertThat(recording.illegalTransitions()).hasSize(2);
        assertThat(recording.illegalTransitions().get(0).timeS()).isCloseTo(truth.timeS()[spoiled], within(1e-12));
        assertThat(PassFinder.find(recording).passes().get(0).flags()).containsExactly(PassFlag.ILLEGAL_TRANSITIONS);
    }

    @Test
    void countsNeedADistancePerCount() {
        assertThatThrownBy(() -> RecordingAssembler.assemble(
                        log(new double[3], new double[3], new double[3]), SensorScale.none()))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(refused.problems().get(0).code())
                                .isEqualTo(ProblemCode.LOG_DISTANCE_PER_COUNT_MISSING));
    }

    @Test
    void columnsHandedOutAreCopies() {
        Recording recording = RecordingAssembler.assemble(
                log(new double[] {0, 1, 2}, new double[3], new double[3]), SensorScale.ofCounts(Q));
        recording.timeS().toArray()[0] = 99;
        assertThat(recording.timeS().at(0)).isZero();
    }
}
