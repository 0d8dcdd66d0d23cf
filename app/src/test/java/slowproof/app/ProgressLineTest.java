package slowproof.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import slowproof.wording.Wording;

class ProgressLineTest {
    private static final String EMPTY = "\r\u001b[K";

    private final AtomicLong nanoTime = new AtomicLong(Long.MAX_VALUE - 5);
    private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();

    private ProgressLine line(Locale locale) {
        return new ProgressLine(
                new PrintStream(bytes, false, StandardCharsets.UTF_8), Wording.of(locale), nanoTime::get);
    }

    private void after(long milliseconds) {
        nanoTime.addAndGet(1_000_000 * milliseconds);
    }

    private String shown() {
        return bytes.toString(StandardCharsets.UTF_8);
    }

    @Test
    void aShortReadingShowsNothing() {
        try (ProgressLine line = line(Locale.ENGLISH)) {
            after(999);
            line.at("run.csv", 99, 100);
        }
        assertThat(shown()).isEmpty();
    }

    @Test
    void aLongReadingIsToldNowAndThenAndTheLineGoesAway() {
        try (ProgressLine line = line(Locale.ENGLISH)) {
            after(1000);
            line.at("run.csv", 30L << 20, 200L << 20);
            after(100);
            line.at("run.csv", 40L << 20, 200L << 20);
            after(100);
            line.at("run.csv", 90L << 20, 200L << 20);
        }
        assertThat(shown())
                .isEqualTo(EMPTY + "Reading run.csv: 15 % of 200 MiB" + EMPTY + "Reading run.csv: 45 % of 200 MiB"
                        + EMPTY);
    }

    @Test
    void aLongNameIsShortenedAndNothingComesAfterTheEnd() {
        ProgressLine line = line(Locale.ENGLISH);
        after(2000);
        line.at("recordings/of/a/week/" + "x".repeat(50) + ".csv", 1, 2);
        line.close();
        assertThat(shown()).isEqualTo(EMPTY + "Reading …" + "x".repeat(32) + ".csv: 50 % of 0 MiB" + EMPTY);
        after(2000);
        line.at("run.csv", 2, 2);
        assertThat(shown()).endsWith(EMPTY);
    }

    @Test
    void itSpeaksGerman() {
        try (ProgressLine line = line(Locale.GERMAN)) {
            after(2000);
            line.at("lauf.csv", 1L << 20, 3L << 20);
        }
        assertThat(shown()).isEqualTo(EMPTY + "lauf.csv wird gelesen: 33 % von 3 MiB" + EMPTY);
    }
}
