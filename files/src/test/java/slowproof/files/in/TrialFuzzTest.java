package slowproof.files.in;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.trial.Piece;
import slowproof.trial.Series;
import slowproof.trial.Standstill;
import slowproof.trial.input.BadInputException;
import slowproof.wording.Wording;

/**
 * Spoilt trial files and tables are read, refused with a message or asked about: never another exception, never a number that
 * nobody wrote. In the good tables each reading is its reference and a tenth of a millimetre more.
 */
class TrialFuzzTest {
    private static final long SEED = Long.getLong("slowproof.seed", 5);
    private static final Charset[] ENCODINGS = {
        StandardCharsets.UTF_8, StandardCharsets.UTF_8, StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE
    };
    private static final String TRIAL = """
            trial: "Felt, two speeds"
            sensor: {name: "sensor", distance_per_count_mm: 0.05, counter_bits: 32}
            reference:
              kind: axis
              expanded_uncertainty_mm: 0.02
            limit: {relative_pct: 0.15, absolute_mm: 0.05}
            setup:
              name: "bench"
              reference_temperature_c: {mean: 21, half_width: 2}
            readings: [readings.csv]
            pieces: pieces.csv
            exclude:
              - {pass: "felt-100/2", reason: "cable caught"}
            """;

    @TempDir
    Path folder;

    private static List<String> readings() {
        List<String> lines = new ArrayList<>(List.of("series,material,speed_mm_s,reference_mm,reading_mm"));
        for (int speed : new int[] {100, 50}) {
            for (int i = 0; i < 6; i++) {
                double at = i % 2 == 0 ? 0 : 600;
                lines.add(String.format(
                        Locale.ROOT, "felt-%d,felt,%d,%.1f,%.1f", speed, speed, at, at == 0 ? 0 : at + 0.1));
            }
        }
        return lines;
    }

    private static List<String> pieces() {
        List<String> lines = new ArrayList<>(List.of("piece,material,speed_mm_s,reference_mm,reading_mm"));
        for (int i = 0; i < 6; i++) {
            lines.add(String.format(Locale.ROOT, "p%d,film,40,%.1f,%.1f", i, 1000.0 + i, 1000.1 + i));
        }
        return lines;
    }

    private static byte[] spoilt(List<String> lines, Random random, boolean yaml) {
        int at = random.nextInt(lines.size());
        String line = lines.get(at);
        switch (random.nextInt(yaml ? 12 : 10)) {
            case 0 -> lines.add(at, line);
            case 1 -> lines.remove(at);
            case 2 -> lines.set(at, line.replace(',', ';'));
            // a last number cut short inside the file is another number, which nobody could tell
            case 3 -> lines.set(at, line.substring(0, random.nextInt(Math.max(line.lastIndexOf(','), 1))));
            case 4 -> lines.set(at, line.replace('0', '"'));
            case 5 -> lines.set(at, line + "," + "x".repeat(1 << random.nextInt(14)));
            case 6 -> lines.set(at, line.replace('.', ','));
            case 7 -> lines.set(at, line.replace(',', '\0'));
            case 8 -> lines.set(at, line.replace("mm", "parsec").replace("felt", "\u2212"));
            case 9 -> Collections.swap(lines, at, random.nextInt(lines.size()));
            case 10 -> lines.set(at, "\t" + line);
            default -> lines.set(at, line.replace(":", ": &a [*a, {") + "!!java.lang.Object");
        }
        byte[] bytes = (String.join(random.nextBoolean() ? "\n" : "\r\n", lines) + "\n")
                .getBytes(ENCODINGS[random.nextInt(ENCODINGS.length)]);
        for (int i = random.nextInt(6) - 3; i > 0; i--) {
            // not 0xa0, a blank: in the place of a first digit it leaves another number
            bytes[random.nextInt(bytes.length)] = (byte) (0xa1 + random.nextInt(0x5f));
        }
        return random.nextInt(2) == 0 ? Arrays.copyOf(bytes, random.nextInt(bytes.length + 1)) : bytes;
    }

    private void write(String name, List<String> lines) throws IOException {
        Files.writeString(folder.resolve(name), String.join("\n", lines) + "\n");
    }

    private void fuzz(long seed, int times) throws IOException {
        for (int k = 0; k < times; k++) {
            Random random = new Random(seed + k);
            write("trial.yaml", List.of(TRIAL));
            write("readings.csv", readings());
            write("pieces.csv", pieces());
            String spoiled = List.of("trial.yaml", "readings.csv", "pieces.csv").get(random.nextInt(3));
            List<String> lines = spoiled.equals("trial.yaml")
                    ? new ArrayList<>(TRIAL.lines().toList())
                    : spoiled.equals("readings.csv") ? readings() : pieces();
            Files.write(folder.resolve(spoiled), spoilt(lines, random, spoiled.equals("trial.yaml")));
            String about = "seed " + (seed + k) + ", " + spoiled;
            try {
                LoadedTrial loaded = TrialReader.read(folder.resolve("trial.yaml"));
                loaded.trial().series().forEach(series -> assertWritten(series, about));
                loaded.trial().pieces().forEach(piece -> assertWritten(piece, about));
            } catch (BadInputException refused) {
                assertThat(refused.problems()).as(about).isNotEmpty();
                for (Locale language : List.of(Locale.ENGLISH, Locale.GERMAN)) {
                    assertThat(Wording.of(language).problems(refused.problems()))
                            .as(about)
                            .isNotBlank();
                }
            } catch (RuntimeException e) {
                throw new AssertionError(about, e);
            }
        }
    }

    private static void assertWritten(Series series, String about) {
        for (Standstill row : series.standstills()) {
            double error = row.readingMm() - row.referenceMm();
            assertThat(Math.rint(1000 * error)).as(about).isIn(0.0, 100.0);
            assertThat(row.referenceMm()).as(about).isIn(0.0, 600.0);
        }
    }

    private static void assertWritten(Piece piece, String about) {
        assertThat(Math.rint(1000 * (piece.readingMm() - piece.referenceMm())))
                .as(about)
                .isEqualTo(100);
        assertThat(piece.speedMmPerS()).as(about).isEqualTo(40);
    }

    @Test
    void someSpoiltTrials() throws IOException {
        fuzz(SEED, 600);
    }

    @Test
    @Tag("long")
    void manySpoiltTrials() throws IOException {
        fuzz(1000 + SEED, 60_000);
    }
}
