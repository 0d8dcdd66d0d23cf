package slowproof.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import slowproof.trial.simulator.DemoPlant;

/** The line file of the demo: the invented plant's cross-cutter, felt. */
final class DemoLine {
    /** Name of the file in the demo's folder. */
    static final String FILE = "line.yaml";

    private DemoLine() {}

    static void write(Path file) throws IOException {
        Files.writeString(file, """
                # Invented line: fast feed, creep before the cut, stop for the cut.
                line: "Cross-cutter, felt"
                material: "%s"
                piece: {length_mm: %s, tolerance_mm: %s}
                cut_on: sensor
                cycle:
                  - {ramp_to_mm_s: 400, acceleration_mm_s2: 500}
                  - {hold_mm: 2000}
                  - {ramp_to_mm_s: 35, acceleration_mm_s2: 500}   # creep
                  - {hold_rest: true}
                  - {ramp_to_mm_s: 0, acceleration_mm_s2: 500}
                  - {stop_s: 1.5}
                """.formatted(DemoPlant.FELT, DemoPlant.PIECE_MM, DemoPlant.TOLERANCE_MM));
    }
}
