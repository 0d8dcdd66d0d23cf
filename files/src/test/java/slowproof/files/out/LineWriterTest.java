package slowproof.files.out;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.files.in.LineReader;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceSpec;

/** A line that is written reads back to the same line. */
class LineWriterTest {
    private static final List<LineStep> EVERY_STEP = List.of(
            new LineStep.RampTo(100.1, 500, 4000.5),
            new LineStep.HoldMm(200),
            new LineStep.HoldS(0.1),
            new LineStep.HoldRest(),
            LineStep.RampTo.of(0, 1e-3 + 400),
            new LineStep.Stop(1.5),
            new LineStep.Reverse(50, 80, 300),
            new LineStep.Repeat(2, List.of(LineStep.RampTo.of(60, 600), LineStep.RampTo.of(0, 600))));

    @TempDir
    Path folder;

    private Line again(Line line) throws IOException {
        return LineReader.read(Files.write(folder.resolve("line.yaml"), LineWriter.bytes(line)))
                .line();
    }

    @Test
    void everythingComesBack() throws IOException {
        List<PieceSpec> pieces = List.of(
                new PieceSpec(1234.5, -1.0, 3.0, 2), new PieceSpec(3000, null, null, 1), PieceSpec.of(1e5, 1e-7));
        Line line = new Line(
                "A \"quoted\" \\ line\u0007 #1: \u00e4",
                "felt: 3 mm",
                pieces,
                false,
                1,
                EVERY_STEP,
                null,
                0.001,
                -0.002,
                0.5,
                0.0002,
                "two units\ncompared",
                0.99,
                0.9);
        assertThat(again(line)).isEqualTo(line);
    }

    @Test
    void whatIsNotStatedStaysAway() throws IOException {
        Line line = Line.of("", PieceSpec.of(1000, 2), EVERY_STEP);
        assertThat(again(line)).isEqualTo(line);
    }

    @Test
    void aLogIsNotWritten() throws IOException {
        Files.writeString(folder.resolve("log.csv"), "time_s,speed_mm_s\n0,0\n1,10\n4,10\n5,0\n");
        Path file = Files.writeString(folder.resolve("log.yaml"), "piece: {length_mm: 40}\nprofile: log.csv\n");
        Line logged = LineReader.read(file).line();
        assertThatThrownBy(() -> LineWriter.bytes(logged)).isInstanceOf(IllegalArgumentException.class);
    }
}
