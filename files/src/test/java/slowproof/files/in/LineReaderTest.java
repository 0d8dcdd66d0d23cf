package slowproof.files.in;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceMotion;
import slowproof.trial.line.PieceSpec;

/** Every key of a line file means what the documents say. */
class LineReaderTest {
    private static final String CYCLE = """
            cycle:
              - {ramp_to_mm_s: 400, acceleration_mm_s2: 500}
              - {hold_rest: true}
              - {ramp_to_mm_s: 0, acceleration_mm_s2: 500}
            """;
    private static final String PIECE = "piece: {length_mm: 2500, tolerance_mm: 2}\n";

    @TempDir
    Path folder;

    private LoadedLine load(String text) throws IOException {
        return LineReader.read(Files.writeString(folder.resolve("line.yaml"), text));
    }

    private Line line(String text) throws IOException {
        return load(text).line();
    }

    @Test
    void whatIsLeftOutHasItsUsualValue() throws IOException {
        Line line = line(PIECE + CYCLE);
        assertThat(line.title()).isEmpty();
        assertThat(line.material()).isNull();
        assertThat(line.cutsOnSensor()).isTrue();
        assertThat(line.piecesPerCycle()).isEqualTo(1);
        assertThat(line.triggerJitterS()).isZero();
        assertThat(line.triggerLatencyS()).isNull();
        assertThat(line.standstillDriftMmPerMin()).isNull();
        assertThat(line.unitSpread()).isNull();
        assertThat(line.coverage()).isEqualTo(0.95);
        assertThat(line.confidence()).isEqualTo(0.95);
        assertThat(line.pieces()).containsExactly(PieceSpec.of(2500, 2));
    }

    @Test
    void everyKeyBesideTheCycleIsRead() throws IOException {
        LoadedLine loaded = load("""
                line: "Cross-cutter"
                description: "invented"
                material: felt
                cut_on: elsewhere
                pieces_per_cycle: 3
                trigger_jitter_s: 0.001
                trigger_latency_s: -0.002
                standstill_drift_mm_min: 0.5
                unit_spread: {relative_pct: 0.02, source: "two units compared"}
                promise: {coverage_pct: 99, confidence_pct: 90}
                """ + PIECE + CYCLE);
        Line line = loaded.line();
        assertThat(line.title()).isEqualTo("Cross-cutter");
        assertThat(line.material()).isEqualTo("felt");
        assertThat(line.cutsOnSensor()).isFalse();
        assertThat(line.piecesPerCycle()).isEqualTo(3);
        assertThat(line.triggerJitterS()).isEqualTo(0.001);
        assertThat(line.triggerLatencyS()).isEqualTo(-0.002);
        assertThat(line.standstillDriftMmPerMin()).isEqualTo(0.5);
        assertThat(line.unitSpread()).isEqualTo(0.0002);
        assertThat(line.unitSpreadSource()).isEqualTo("two units compared");
        assertThat(line.coverage()).isEqualTo(0.99);
        assertThat(line.confidence()).isEqualTo(0.9);
        assertThat(loaded.materialAt().line()).isEqualTo(3);
        assertThat(loaded.sources()).hasSize(1);
        assertThat(loaded.sources().get(0).sha256()).hasSize(64);
    }

    @Test
    void tolerancesMayBeOneSidedAndMissing() throws IOException {
        Line line = line("""
                pieces:
                  - {length_mm: 2500, tolerance_mm: {lower_mm: -1, upper_mm: 3}, share: 2}
                  - {length_mm: 3000, tolerance_mm: {lower_mm: 0, upper_mm: 2}}
                  - {length_mm: 3500}
                """ + CYCLE);
        assertThat(line.pieces())
                .containsExactly(
                        new PieceSpec(2500, -1.0, 3.0, 2),
                        new PieceSpec(3000, 0.0, 2.0, 1),
                        new PieceSpec(3500, null, null, 1));
        // 2 of 4 parts, 1 of 4, 1 of 4
        assertThat(line.motions().stream().map(Line.WeightedPiece::weight)).containsExactly(0.5, 0.25, 0.25);
    }

    @Test
    void everyStepIsRead() throws IOException {
        Line line = line("piece: {length_mm: 1000}\n" + """
                cycle:
                  - {ramp_to_mm_s: 100, acceleration_mm_s2: 500, jerk_mm_s3: 4000}
                  - {hold_mm: 200}
                  - {hold_s: 0.5}
                  - {hold_rest: true}
                  - {ramp_to_mm_s: 0, acceleration_mm_s2: 400}
                  - {stop_s: 1.5}
                  - {reverse_mm: 50, speed_mm_s: 80, acceleration_mm_s2: 300}
                  - {repeat: 2, steps: [{ramp_to_mm_s: 60, acceleration_mm_s2: 600}, {ramp_to_mm_s: 0, acceleration_mm_s2: 600}]}
                """);
        assertThat(line.cycle())
                .containsExactly(
                        new LineStep.RampTo(100, 500, 4000.0),
                        new LineStep.HoldMm(200),
                        new LineStep.HoldS(0.5),
                        new LineStep.HoldRest(),
                        LineStep.RampTo.of(0, 400),
                        new LineStep.Stop(1.5),
                        new LineStep.Reverse(50, 80, 300),
                        new LineStep.Repeat(2, List.of(LineStep.RampTo.of(60, 600), LineStep.RampTo.of(0, 600))));
        PieceMotion motion = line.motions().get(0).motion();
        assertThat(motion.lengthMm()).isCloseTo(1000, within(1e-6));
        assertThat(motion.backward().totalMm()).isCloseTo(50, within(1e-6));
        assertThat(motion.starts()).isEqualTo(4);
        assertThat(motion.standstillS()).isCloseTo(1.5, within(1e-9));
    }

    @Test
    void aLogIsReadWithItsUnitsAndItsSourceKept() throws IOException {
        // 0.6 m/min = 10 mm/s: up in 1 s, 3 s at 10 mm/s, down in 1 s travel 40 mm
        Files.writeString(folder.resolve("log.csv"), "time_ms;speed_m_min\n0;0\n1000;0,6\n4000;0,6\n5000;0\n");
        LoadedLine loaded = load("piece: {length_mm: 40}\nprofile: log.csv\n");
        assertThat(loaded.line().cycle()).isEmpty();
        assertThat(loaded.line().motions()).hasSize(1);
        assertThat(loaded.line().motions().get(0).motion().lengthMm()).isCloseTo(40, within(1e-9));
        assertThat(loaded.sources()).extracting(SourceFile::name).last().isEqualTo("log.csv");
    }
}
