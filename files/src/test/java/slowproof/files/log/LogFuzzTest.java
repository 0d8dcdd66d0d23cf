package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.zip.GZIPOutputStream;
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

    /** The micro sign in Western encodings. */
    private static final int MICRO = 0xb5;

    private static final Charset[] ENCODINGS = {
        StandardCharsets.UTF_8, StandardCharsets.UTF_8, StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE
    };

    @TempDir
    Path folder;

    private static final String[] HEADINGS = {"time_s", "count", "reference_mm"};

    /** Ways to write the time; the last two begin ten rows before midnight. */
    private enum Clock {
        SECONDS,
        ISO,
        CLOCK
    }

    /** A good log: time, count and reference rise together, so that each row can be told by its time. */
    private static List<String> good(Random random, Clock clock) {
        List<Integer> order = new ArrayList<>(List.of(0, 1, 2));
        Collections.shuffle(order, random);
        String time = clock == Clock.SECONDS ? "time_s" : "time";
        List<String> lines = new ArrayList<>();
        lines.add(order.stream().map(k -> k == 0 ? time : HEADINGS[k]).collect(Collectors.joining(";")));
        for (int i = 0; i < 120; i++) {
            String[] cells = {
                stamp(clock, i), String.valueOf(1000 + 20 * i), String.format(Locale.ROOT, "%.2f", (double) i)
            };
            lines.add(order.stream().map(k -> cells[k]).collect(Collectors.joining(";")));
        }
        return lines;
    }

    private static String stamp(Clock clock, int row) {
        LocalDateTime at = LocalDateTime.of(2026, 3, 1, 23, 59, 59, 900_000_000).plusNanos(10_000_000L * row);
        return switch (clock) {
            case SECONDS -> String.format(Locale.ROOT, "%.2f", row / 100.0);
            case ISO -> at.format(DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm:ss.SS", Locale.ROOT));
            case CLOCK -> at.format(DateTimeFormatter.ofPattern("HH:mm:ss.SS", Locale.ROOT));
        };
    }

    private static byte[] spoilt(Random random, Clock clock) {
        List<String> lines = good(random, clock);
        boolean quoted = random.nextInt(3) == 0;
        if (quoted) {
            lines.replaceAll(LogFuzzTest::quoted);
        }
        int kind = random.nextInt(10);
        int at = 1 + random.nextInt(lines.size() - 1);
        switch (kind) {
            case 0 -> Collections.shuffle(lines.subList(1, lines.size()), random);
            case 1 -> lines.add(at, lines.get(0));
            case 2 ->
                lines.set(
                        at,
                        quoted ? unquoted(random, lines.get(at)) : lines.get(at).replace(';', ','));
            case 3 -> lines.set(at, "x".repeat(1 << (10 + random.nextInt(8))) + ";1;2");
            case 4 -> lines.set(at, lines.get(at).replace(quoted ? ',' : ';', '\0'));
            case 5 -> lines.set(at, lines.get(at).replace("1", "\""));
            case 6 -> lines.subList(at, lines.size()).replaceAll(line -> "0" + line);
            case 7 -> lines.set(at, (lines.get(0).startsWith("time") ? "-" : "x") + lines.get(at));
            case 8 -> lines.set(at, "");
            default -> {
                // only what follows is wrong
            }
        }
        String text = String.join(random.nextBoolean() ? "\n" : "\r\n", lines) + "\n";
        byte[] bytes = text.getBytes(ENCODINGS[random.nextInt(ENCODINGS.length)]);
        if (random.nextInt(3) == 0) {
            for (int i = 0; i < 1 + random.nextInt(4); i++) {
                // not 0xa0, a blank: in the place of a first digit it leaves another number
                int sign = 0xa1 + random.nextInt(0x5f);
                // nor the micro sign: in a heading it makes micrometres of millimetres, which is then what the file
                // says
                bytes[random.nextInt(bytes.length)] = (byte) (sign == MICRO ? sign + 1 : sign);
            }
        }
        // cut anywhere, as a logger that is switched off or a full disk leaves it
        bytes = random.nextInt(2) == 0 ? Arrays.copyOf(bytes, random.nextInt(bytes.length + 1)) : bytes;
        return random.nextInt(6) == 0 ? packed(bytes, random) : bytes;
    }

    /** The same line with decimal commas in quotes between commas. */
    private static String quoted(String line) {
        return Arrays.stream(line.split(";"))
                .map(cell -> cell.contains(".") ? '"' + cell.replace('.', ',') + '"' : cell)
                .collect(Collectors.joining(","));
    }

    /** Loses the quotes of one number or of all. */
    private static String unquoted(Random random, String line) {
        int open = random.nextBoolean() ? line.indexOf('"') : line.lastIndexOf(",\"") + 1;
        int close = line.indexOf('"', open + 1);
        return random.nextInt(3) == 0
                ? line.replace("\"", "")
                : line.substring(0, open) + line.substring(open + 1, close) + line.substring(close + 1);
    }

    private static byte[] packed(byte[] bytes, Random random) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
            gzip.write(bytes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        byte[] packed = out.toByteArray();
        return random.nextInt(3) == 0 ? Arrays.copyOf(packed, random.nextInt(packed.length)) : packed;
    }

    private void fuzz(long seed, int times) throws IOException {
        Path file = folder.resolve("log.csv");
        for (int k = 0; k < times; k++) {
            Random random = new Random(seed + k);
            Clock clock = Clock.values()[random.nextInt(Clock.values().length)];
            byte[] bytes = spoilt(random, clock);
            Files.write(file, bytes);
            try {
                assertTrue(
                        LogReader.read(file, LogRequest.of("log.csv", SensorScale.ofCounts(0.05)))
                                .recording(),
                        clock,
                        seed + k);
            } catch (BadInputException refused) {
                assertThat(Wording.of(Locale.ENGLISH).problems(refused.problems()))
                        .as("seed %d", seed + k)
                        .startsWith("log.csv");
            } catch (RuntimeException e) {
                throw new AssertionError("seed " + (seed + k), e);
            }
        }
    }

    /** Every row says of count and reference what the writer wrote at its time. */
    private static void assertTrue(Recording recording, Clock clock, long seed) {
        // clock times count from midnight before the first row, seconds from zero
        double start = clock == Clock.SECONDS ? 0 : 86_399.9;
        for (int i = 0; i < recording.size(); i++) {
            double row = 100 * (recording.timeS().at(i) - start);
            // a minus sign before a whole line, or a stamp behind midnight alone in a shuffled log
            boolean elsewhere = row < -0.5 || row > 200;
            if (!elsewhere) {
                assertThat(recording.referenceMm().at(i)).as("seed %d", seed).isCloseTo(row, within(1e-6));
                assertThat(recording.indicationMm().at(i)
                                - recording.indicationMm().at(0))
                        .as("seed %d", seed)
                        .isCloseTo(
                                recording.referenceMm().at(i)
                                        - recording.referenceMm().at(0),
                                within(1e-6));
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
