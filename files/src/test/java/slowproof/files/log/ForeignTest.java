package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Random;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.recording.SensorScale;
import slowproof.wording.Wording;

/** Files that are no text get a message about that, and text keeps being read, whatever its encoding. */
class ForeignTest {
    private static final long SEED = Long.getLong("slowproof.seed", 8);

    private static final LogRequest REQUEST = LogRequest.of("log.csv", SensorScale.ofCounts(0.05));

    @TempDir
    Path folder;

    private Path file(byte[] bytes) throws IOException {
        return Files.write(folder.resolve("log.csv"), bytes);
    }

    private void assertForeign(byte[] bytes, String kind) throws IOException {
        Path file = file(bytes);
        List<InputProblem> whole = catchThrowableOfType(BadInputException.class, () -> LogReader.read(file, REQUEST))
                .problems();
        assertThat(LogBegin.of(file, REQUEST).problems()).isEqualTo(whole);
        assertThat(whole).extracting(InputProblem::code).containsExactly(ProblemCode.LOG_FOREIGN);
        assertThat(whole.get(0).arguments()).containsExactly(kind);
        for (Locale language : List.of(Locale.ENGLISH, Locale.GERMAN)) {
            assertThat(Wording.of(language).problem(whole.get(0)))
                    .startsWith("log.csv: ")
                    .contains("CSV", "gzip", "Parquet", "XLSX")
                    .doesNotContain(": " + kind + ":");
        }
    }

    private static byte[] joined(byte[] start, byte[] rest) {
        byte[] all = Arrays.copyOf(start, start.length + rest.length);
        System.arraycopy(rest, 0, all, start.length, rest.length);
        return all;
    }

    private static byte[] random(int length) {
        byte[] bytes = new byte[length];
        new Random(SEED + length).nextBytes(bytes);
        return bytes;
    }

    private static byte[] gzip(byte[] bytes) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
            gzip.write(bytes);
        }
        return out.toByteArray();
    }

    private static byte[] zip(String name, byte[] content) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(out)) {
            zip.putNextEntry(new ZipEntry(name));
            zip.write(content);
        }
        return out.toByteArray();
    }

    @ParameterizedTest
    @ValueSource(strings = {"png", "jpg", "gif", "tiff"})
    void pictures(String form) throws IOException {
        for (int size : new int[] {1, 40, 300}) {
            BufferedImage picture = new BufferedImage(size, size, BufferedImage.TYPE_INT_RGB);
            Graphics2D pen = picture.createGraphics();
            pen.setColor(Color.ORANGE);
            pen.fillOval(0, 0, size, size);
            pen.dispose();
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            assertThat(ImageIO.write(picture, form, out)).isTrue();
            assertForeign(out.toByteArray(), "picture");
        }
    }

    @Test
    void documents() throws IOException {
        // a document may hold nothing but letters
        String letters = "%PDF-1.7\n1 0 obj\n<</Type/Catalog>>\nendobj\ntrailer\n<</Root 1 0 R>>\n%%EOF\n";
        assertForeign(letters.getBytes(StandardCharsets.US_ASCII), "pdf");
        assertForeign(joined("%PDF-1.4\n%\u00e2\u00e3\n".getBytes(StandardCharsets.ISO_8859_1), random(5000)), "pdf");
    }

    @Test
    void programs() throws IOException {
        assertForeign(joined(new byte[] {0x7f, 'E', 'L', 'F', 2, 1, 1, 0}, random(20_000)), "program");
        assertForeign(joined(new byte[] {'M', 'Z', (byte) 0x90, 0, 3, 0, 0, 0}, random(20_000)), "program");
        try (InputStream in = Objects.requireNonNull(getClass().getResourceAsStream("ForeignTest.class"))) {
            assertForeign(in.readAllBytes(), "program");
        }
    }

    @Test
    void bytesWithoutSense() throws IOException {
        for (int length : new int[] {600, 4000, 70_000, 300_000}) {
            assertForeign(random(length), "bytes");
            assertForeign(gzip(random(length)), "bytes");
        }
        assertForeign(new byte[3000], "bytes");
        // numbers as a program holds them in memory
        byte[] counts = new byte[8000];
        for (int i = 0; i < counts.length / 4; i++) {
            counts[4 * i] = (byte) i;
            counts[4 * i + 1] = (byte) (i >> 8);
        }
        assertForeign(counts, "bytes");
    }

    @Test
    void archives() throws IOException {
        byte[] log = "time_s,count,reference_mm\n0,0,1\n1,1,2\n".getBytes(StandardCharsets.US_ASCII);
        assertForeign(zip("log.csv", log), "zip");
        assertForeign(zip("word/document.xml", log), "zip");
        assertForeign(Arrays.copyOf(zip("log.csv", log), 40), "zip");
        assertForeign(gzip(zip("xl/workbook.xml", log)), "bytes");
        assertForeign(joined(new byte[] {'R', 'a', 'r', '!', 0x1a, 7, 1, 0}, random(5000)), "archive");
        // a log in a tar archive is text from its second block on
        byte[] tar = joined(Arrays.copyOf("run.csv".getBytes(StandardCharsets.US_ASCII), 257), new byte[255]);
        System.arraycopy("ustar".getBytes(StandardCharsets.US_ASCII), 0, tar, 257, 5);
        assertForeign(joined(tar, "0,0,1\n".repeat(2000).getBytes(StandardCharsets.US_ASCII)), "archive");
        byte[] old = {(byte) 0xd0, (byte) 0xcf, 0x11, (byte) 0xe0, (byte) 0xa1, (byte) 0xb1, 0x1a, (byte) 0xe1};
        assertForeign(joined(old, random(5000)), "old_workbook");
    }

    @Test
    void textIsReadInEveryEncodingAsBefore() throws IOException {
        StringBuilder text = new StringBuilder("Größe der Länge;;\nZeit [s];Zähler;Position [mm]\n");
        for (int i = 0; i < 3000; i++) {
            text.append(i).append(",5;").append(i).append(";0,25\n");
        }
        for (Charset charset : List.of(
                StandardCharsets.UTF_8,
                StandardCharsets.UTF_16LE,
                StandardCharsets.UTF_16BE,
                Charset.forName("windows-1252"))) {
            for (String mark : charset.name().startsWith("UTF") ? List.of("", "\ufeff") : List.of("")) {
                byte[] bytes = (mark + text).getBytes(charset);
                assertThat(LogReader.read(file(bytes), REQUEST).recording().size())
                        .isEqualTo(3000);
                assertThat(LogReader.read(file(gzip(bytes)), REQUEST).readAs().encoding())
                        .isEqualTo(charset.name());
                assertThat(LogBegin.of(file(bytes), REQUEST).problems()).isEmpty();
            }
        }
    }

    @Test
    void textWithAFewOddSignsIsReadAsBefore() throws IOException {
        String rows = "time_s,count,reference_mm\n0,0,1\n1,1,2\n2,2,3\n";
        // noise of a serial line before the log, frames around its first line
        for (String text : List.of(
                "\u0000\u0003\u0015\u001f\u007f booted\n" + "# bench of the invented plant\n".repeat(5) + rows,
                "\u0002bench\u0003\n" + rows)) {
            assertThat(LogReader.read(file(text.getBytes(StandardCharsets.US_ASCII)), REQUEST)
                            .recording()
                            .size())
                    .isEqualTo(3);
        }
    }

    @Test
    void zerosOfALostBlockBehindTheRowsAreToldWithTheirLine() throws IOException {
        byte[] text =
                ("time_s,count,reference_mm\n0,0,1\n1,1,2\n" + "\0".repeat(2000)).getBytes(StandardCharsets.US_ASCII);
        List<InputProblem> problems = LogBegin.of(file(text), REQUEST).problems();
        assertThat(problems).extracting(InputProblem::code).containsExactly(ProblemCode.NOT_A_NUMBER);
        assertThat(problems.get(0).at().line()).isEqualTo(4);
    }

    @Test
    void anEmptyFileIsStillSaidToBeEmpty() throws IOException {
        assertThat(LogBegin.of(file(new byte[0]), REQUEST).problems())
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.FILE_EMPTY);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '\0',
            value = {
                "<html><body><table><tr><td>time_s</td><td>count</td></tr></table></body></html>|markup",
                "<?xml version=\"1.0\"?>#<log><row>1</row></log>|markup",
                "[{\"time_s\":0,\"count\":1,\"reference_mm\":2}]|json",
                "{#  \"rows\": [#    [0, 1, 2]#  ]#}|json"
            })
    void textInAFormOfItsOwnIsCalledByItsName(String text, String kind) throws IOException {
        Path file = Files.writeString(folder.resolve("log.csv"), text.replace('#', '\n') + "\n");
        assertThatThrownBy(() -> LogReader.read(file, REQUEST))
                .isInstanceOfSatisfying(BadInputException.class, refused -> {
                    assertThat(refused.problems()).hasSize(1);
                    assertThat(refused.problems().get(0).code()).isEqualTo(ProblemCode.LOG_FOREIGN);
                    assertThat(refused.problems().get(0).arguments()).containsExactly(kind);
                });
    }

    @Test
    void aRemarkInBracketsAboveALogHarmsNobody() throws IOException {
        Path file = Files.writeString(
                folder.resolve("log.csv"), "{\"station\": 7}\ntime_s,count,reference_mm\n0,0,1\n1,1,2\n");
        assertThat(LogReader.read(file, REQUEST).recording().size()).isEqualTo(2);
    }
}
