package slowproof.files.in;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import slowproof.trial.input.BadInputException;
import slowproof.wording.Wording;

/** What a person reads when a line file is wrong: what was found, where, and how to mend it. */
class LineRefusedTest {
    private static final String PIECE = "piece: {length_mm: 100}\n";
    private static final String UP = "  - {ramp_to_mm_s: 20, acceleration_mm_s2: 40}\n";
    private static final String REST = "  - {hold_rest: true}\n";
    private static final String DOWN = "  - {ramp_to_mm_s: 0, acceleration_mm_s2: 40}\n";
    private static final String CYCLE = "cycle:\n" + UP + REST + DOWN;

    @TempDir
    Path folder;

    private String message(String text, Locale language) throws IOException {
        Path file = Files.writeString(folder.resolve("line.yaml"), text);
        try {
            LineReader.read(file);
        } catch (BadInputException e) {
            return Wording.of(language).problems(e.problems()).replace(folder + "/", "");
        }
        throw new AssertionError("went through: " + text);
    }

    private static Arguments row(String text, String place, String... words) {
        return Arguments.of(text, place, words);
    }

    static Stream<Arguments> files() {
        return Stream.of(
                row("", "line.yaml: ", "empty"),
                row("- a\n", "line.yaml, line 1, column 1: ", "of the form key: value"),
                row("piece: {length_mm: 1\n", "line.yaml, line 2, column 1: ", "YAML", "Check indentation"),
                row(
                        PIECE + "cycl: []\n" + CYCLE,
                        "line.yaml, line 2, column 1 (cycl): ",
                        "nearest known one is \"cycle\""),
                row(PIECE + PIECE + CYCLE, "line.yaml, line 2, column 1 (piece): ", "twice"),
                row(CYCLE, "line.yaml, line 1, column 1 (piece): ", "\"piece\" is missing"),
                row("piece: 100\n" + CYCLE, "line.yaml, line 1, column 8 (piece): ", "100"),
                row("piece: {share: 1}\n" + CYCLE, "line 1, column 8 (piece.length_mm): ", "missing"),
                row("piece: {length_mm: }\n" + CYCLE, "line 1, column 19 (piece.length_mm): ", "missing"),
                row("piece: {length_mm: 0}\n" + CYCLE, "line 1, column 20 (piece.length_mm): ", "not above zero"),
                row("piece: {length_mm: long}\n" + CYCLE, "line 1, column 20 (piece.length_mm): ", "not a number"),
                row("piece: {length_mm: .inf}\n" + CYCLE, "line 1, column 20 (piece.length_mm): ", "not a finite"),
                row("piece:\n  length_mm: 2,5\n" + CYCLE, "line 2, column 14 (piece.length_mm): ", "decimal sign"),
                row("pieces: [{length_mm: 100, share: -1}]\n" + CYCLE, "(pieces[1].share): ", "not above zero"),
                row("piece: {length_mm: 100, tolerance_mm: -2}\n" + CYCLE, "(piece.tolerance_mm): ", "not above zero"),
                row(
                        "piece: {length_mm: 100, tolerance_mm: {lower_mm: 1, upper_mm: 3}}\n" + CYCLE,
                        "line 1, column 39 (piece.tolerance_mm.): ",
                        "from 1 mm to 3 mm"),
                row(
                        "piece: {length_mm: 100, tolerance_mm: {lower_mm: -1}}\n" + CYCLE,
                        "(piece.tolerance_mm.upper_mm): ",
                        "missing"),
                row("cut_on: knife\n" + PIECE + CYCLE, "line 1, column 9 (cut_on): ", "sensor, elsewhere"),
                row("pieces_per_cycle: 1.5\n" + PIECE + CYCLE, "column 19 (pieces_per_cycle): ", "1, 2, 3 ... 1000"),
                row("pieces_per_cycle: 1001\n" + PIECE + CYCLE, "(pieces_per_cycle): ", "\"1001\" is out of range"),
                row("trigger_jitter_s: -1\n" + PIECE + CYCLE, "column 19 (trigger_jitter_s): ", "negative"),
                row("trigger_latency_s: soon\n" + PIECE + CYCLE, "(trigger_latency_s): ", "\"soon\" is not a number"),
                row("standstill_drift_mm_min: -1\n" + PIECE + CYCLE, "(standstill_drift_mm_min): ", "negative"),
                row("unit_spread: {source: x}\n" + PIECE + CYCLE, "(unit_spread.relative_pct): ", "missing"),
                row("unit_spread: {relative_pct: -1}\n" + PIECE + CYCLE, "(unit_spread.relative_pct): ", "negative"),
                row("promise: {coverage_pct: 100}\n" + PIECE + CYCLE, "(promise.coverage_pct): ", "0 to 100 %"),
                row("promise: {confidence_pct: 0}\n" + PIECE + CYCLE, "(promise.confidence_pct): ", "not above zero"));
    }

    static Stream<Arguments> cycles() {
        return Stream.of(
                row(PIECE, "line.yaml, line 1, column 1 (cycle): ", "no motion"),
                row(PIECE + "cycle: []\n", "line.yaml, line 2, column 8 (cycle): ", "no motion"),
                row(PIECE + CYCLE + "profile: log.csv\n", "line 3, column 3 (cycle): ", "one of them is needed"),
                row(PIECE + "cycle: fast\n", "line 2, column 8 (cycle): ", "\"fast\""),
                row(PIECE + "cycle:\n  - {hold_rest: no}\n", "(cycle[1].hold_rest): ", "true, false"),
                row(
                        PIECE + "cycle:\n" + UP + "  - {}\n",
                        "line 4, column 5 (cycle[2].): ",
                        "says nothing",
                        "hold_rest"),
                row(PIECE + "cycle:\n  - {hold_rest: false}\n", "line 3, column 5 (cycle[1].): ", "says nothing"),
                row(
                        PIECE + "cycle:\n  - {hold_mm: 5, stop_s: 1}\n",
                        "line 3, column 5 (cycle[1].): ",
                        "hold_mm, stop_s",
                        "one step for each"),
                row(PIECE + "cycle:\n  - {hold_s: 5, jerk_mm_s3: 1}\n", "(cycle[1].): ", "hold_s, jerk_mm_s3"),
                row(PIECE + "cycle:\n  - {ramp_to_mm_s: 5}\n", "(cycle[1].acceleration_mm_s2): ", "missing"),
                row(PIECE + "cycle:\n  - {ramp_to_mm_s: }\n", "(cycle[1].ramp_to_mm_s): ", "missing"),
                row(
                        PIECE + "cycle:\n  - {ramp_to_mm_s: 5, acceleration_mm_s2: 0}\n",
                        "line 3, column 43 (cycle[1].acceleration_mm_s2): ",
                        "not above zero"),
                row(
                        PIECE + "cycle:\n  - {ramp_to_mm_s: 5, acceleration_mm_s2: 1, jerk_mm_s3: 0}\n",
                        "(cycle[1].jerk_mm_s3): ",
                        "not above zero"),
                row(PIECE + "cycle:\n  - {hold_mm: -5}\n", "(cycle[1].hold_mm): ", "negative"),
                row(PIECE + "cycle:\n  - {hold_s: x}\n", "(cycle[1].hold_s): ", "not a number"),
                row(PIECE + "cycle:\n  - {stop_s: -1}\n", "(cycle[1].stop_s): ", "negative"),
                row(PIECE + "cycle:\n  - {reverse_mm: 5}\n", "(cycle[1].speed_mm_s): ", "missing"),
                row(PIECE + "cycle:\n  - {repeat: 2}\n", "(cycle[1].steps): ", "missing"),
                row(
                        PIECE + "cycle:\n  - {repeat: 1.5, steps: []}\n",
                        "line 3, column 14 (cycle[1].repeat): ",
                        "1, 2, 3 ... 10000"),
                row(
                        PIECE + "cycle:\n  - {repeat: 2, steps: [{hold_rest: true}]}\n",
                        "(cycle[1].steps): ",
                        "once in a cycle"),
                row(
                        PIECE + "cycle:\n  - {repeat: 1000, steps: [{repeat: 1000, steps: [{stop_s: 1}]}]}\n",
                        "line 3, column 3 (cycle): ",
                        "1000000 steps"));
    }

    static Stream<Arguments> motions() {
        return Stream.of(
                row(
                        PIECE + "cycle:\n" + UP + "  - {hold_mm: 200}\n" + DOWN,
                        "line 3, column 3 (cycle): ",
                        "travel 210 mm",
                        "100 mm long"),
                row(PIECE + "cycle:\n" + UP + DOWN, "line 3, column 3 (cycle): ", "travel 10 mm", "hold_rest: true"),
                row(PIECE + "cycle:\n" + REST, "line 3, column 5 (cycle[1].): ", "stands still"),
                row(
                        PIECE + "cycle:\n" + UP + "  - {stop_s: 1}\n" + REST + DOWN,
                        "line 4, column 5 (cycle[2].): ",
                        "20 mm/s",
                        "Ramp down"),
                row(PIECE + "cycle:\n" + UP + REST + REST + DOWN, "line 5, column 5 (cycle[3].): ", "once in a cycle"),
                row(PIECE + "cycle:\n" + UP + REST, "line 3, column 3 (cycle): ", "ends at 20 mm/s"),
                row(PIECE + "profile: gone.csv\n", "gone.csv: ", "no file \"gone.csv\""));
    }

    @ParameterizedTest
    @MethodSource({"files", "cycles", "motions"})
    void theMessageNamesThePlaceAndTheRemedy(String text, String place, String[] words) throws IOException {
        String english = message(text, Locale.ENGLISH);
        assertThat(english).contains(place).contains(words).doesNotContain("{0}", "Exception");
        String german = message(text, Locale.GERMAN);
        assertThat(german).isNotEqualTo(english).doesNotContain("{0}");
        assertThat(german.lines().count()).isEqualTo(english.lines().count());
    }

    @Test
    void allProblemsComeAtOnceInTheirOrder() throws IOException {
        String text = message(
                "piece: {length_mm: -1}\ncut_on: knife\ncycle:\n  - {hold_mm: x}\n  - {stop_s: -1}\n", Locale.ENGLISH);
        assertThat(text.lines().map(line -> line.substring(0, line.indexOf(", column"))))
                .containsExactly("line.yaml, line 1", "line.yaml, line 2", "line.yaml, line 4", "line.yaml, line 5");
    }

    @Test
    void aLogIsRefusedWithItsOwnNameLineAndColumn() throws IOException {
        String log = "time_s,speed_mm_s\n0,0\n1,20\n2,20\n3,0\n";
        Path file = folder.resolve("log.csv");
        String line = PIECE + "profile: log.csv\n";
        Files.writeString(file, log.replace("2,20", "2,2o"));
        assertThat(message(line, Locale.ENGLISH)).contains("log.csv, line 4, column 2", "\"2o\" is not a number");
        Files.writeString(file, log.replace("2,20", "1,20"));
        assertThat(message(line, Locale.ENGLISH)).contains("log.csv, line 4", "Time 1 s follows 1 s");
        Files.writeString(file, log.replace("speed_mm_s", "dial"));
        assertThat(message(line, Locale.ENGLISH)).contains("log.csv", "dial");
        Files.writeString(file, log.replace(",20", ",0"));
        assertThat(message(line, Locale.ENGLISH)).contains("never moves");
        Files.writeString(file, log);
        assertThat(message("piece: {length_mm: 90}\nprofile: log.csv\n", Locale.ENGLISH))
                .contains("line 2, column 10 (profile)", "travels 40 mm", "one piece of 90 mm");
    }
}
