package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
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
import slowproof.trial.input.BadInputException;
import slowproof.trial.recording.Recording;
import slowproof.trial.recording.SensorScale;
import slowproof.wording.Wording;

/** Spoilt logs are read, or refused with a message: never another exception, never a number that nobody wrote. */
class LogFuzzTest {
    private static final long SEED = Long.getLong("slowproof.seed", 8);

    @TempDir
    Path folder;

    /** A good log: time, count and reference rise together, so that each row can be told by its time. */
    private static List<String> good() {
        List<String> lines = new ArrayList<>(List.of("time_s;count;reference_mm"));
        for (int i = 0; i < 120; i++) {
            lines.add(String.format(Locale.ROOT, "%.2f;%d;%.2f", i / 100.0, 1000 + 20 * i, (double) i));
        }
        return lines;
    }

    private static byte[] spoilt(Random random) {
        List<String> lines = good();
        int kind = random.nextInt(9);
        int at = 1 + random.nextInt(lines.size() - 1);
        switch (kind) {
            case 0 -> Collections.shuffle(lines.subList(1, lines.size()), random);
            case 1 -> lines.add(at, lines.get(0));
            case 2 -> lines.set(at, lines.get(at).replace(';', ','));
            case 3 -> lines.set(at, "x".repeat(1 << (10 + random.nextInt(8))) + ";1;2");
            case 4 -> lines.set(at, lines.get(at).replace(';', '\0'));
            case 5 -> lines.set(at, lines.get(at).replace("1", "\""));
            case 6 -> lines.subList(at, lines.size()).replaceAll(line -> "0" + line);
            case 7 -> lines.set(at, "-" + lines.get(at));
            default -> lines.set(at, "");
        }
        String text = String.join(random.nextBoolean() ? "\n" : "\r\n", lines) + "\n";
        byte[] bytes = text.getBytes(random.nextInt(4) == 0 ? StandardCharsets.UTF_16LE : StandardCharsets.UTF_8);
        if (random.nextInt(3) == 0) {
            for (int i = 0; i < 1 + random.nextInt(4); i++) {
                bytes[random.nextInt(bytes.length)] = (byte) (128 + random.nextInt(128));
            }
        }
        if (random.nextInt(3) == 0) {
            // cut at a line, as a logger that is switched off leaves it
            String whole = new String(bytes, StandardCharsets.ISO_8859_1);
            int cut = whole.indexOf('\n', random.nextInt(whole.length()));
            bytes = Arrays.copyOf(bytes, cut < 0 ? bytes.length : cut + 1);
        }
        return bytes;
    }

    private void fuzz(long seed, int times) throws IOException {
        Path file = folder.resolve("log.csv");
        for (int k = 0; k < times; k++) {
            byte[] bytes = spoilt(new Random(seed + k));
            Files.write(file, bytes);
            try {
                Recording recording = LogReader.read(file, LogRequest.of("log.csv", SensorScale.ofCounts(0.05)))
                        .recording();
                for (int i = 0; i < recording.size(); i++) {
                    double row = 100 * recording.timeS().at(i);
                    if (row >= 0) {
                        assertThat(recording.referenceMm().at(i))
                                .as("seed %d", seed + k)
                                .isCloseTo(row, within(1e-6));
                    }
                }
            } catch (BadInputException refused) {
                assertThat(Wording.of(Locale.ENGLISH).problems(refused.problems()))
                        .as("seed %d", seed + k)
                        .startsWith("log.csv");
            } catch (RuntimeException e) {
                throw new AssertionError("seed " + (seed + k), e);
            }
        }
    }

    @Test
    void someSpoiltLogs() throws IOException {
        fuzz(SEED, 400);
    }

    @Test
    @Tag("long")
    void manySpoiltLogs() throws IOException {
        fuzz(1000 + SEED, 40_000);
    }
}
