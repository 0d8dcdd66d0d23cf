package slowproof.files.packed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.files.log.LogBegin;
import slowproof.files.log.LogReader;
import slowproof.files.log.LogRequest;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.recording.SensorScale;

class UnpackingTest {
    private static final byte[] MIB = new byte[1 << 20];

    @TempDir
    Path folder;

    private static void zeros(OutputStream out, int mib) throws IOException {
        for (int i = 0; i < mib; i++) {
            out.write(MIB);
        }
    }

    private Path workbook(String entry, int mib) throws IOException {
        Path file = folder.resolve("log.xlsx");
        try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(file))) {
            zip.putNextEntry(new ZipEntry("[Content_Types].xml"));
            zip.write("<Types/>".getBytes(StandardCharsets.UTF_8));
            zip.putNextEntry(new ZipEntry(entry));
            zeros(zip, mib);
            zip.closeEntry();
        }
        return file;
    }

    private static void isRefused(Path file) {
        LogRequest request = LogRequest.of(String.valueOf(file.getFileName()), SensorScale.none());
        assertThatThrownBy(() -> LogReader.read(file, request))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        e -> assertThat(e.problems())
                                .extracting(InputProblem::code)
                                .containsExactly(ProblemCode.FILE_UNPACKS_TOO_LARGE));
    }

    @Test
    void aWorkbookThatUnpacksToFarTooMuchIsRefused() throws IOException {
        // zeros shrink to about a thousandth
        Path file = workbook("xl/worksheets/sheet1.xml", 120);
        isRefused(file);
        LogBegin begin = LogBegin.of(file, LogRequest.of("log.xlsx", SensorScale.none()));
        assertThat(begin.problems()).extracting(InputProblem::code).containsExactly(ProblemCode.FILE_UNPACKS_TOO_LARGE);
    }

    @Test
    void anArchiveWithNamesThatPointElsewhereIsOnlyReadThrough() throws IOException {
        Path file = workbook("../../outside.txt", 1);
        Unpacking.checkArchive(file);
        assertThat(folder.getParent().resolve("outside.txt")).doesNotExist();
        assertThat(folder.toFile().list()).containsExactly("log.xlsx");
    }

    @Test
    void aLogThatUnpacksToFarTooMuchIsRefused() throws IOException {
        Path file = folder.resolve("log.csv.gz");
        try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(file))) {
            out.write("time_s,count,reference_mm\n".getBytes(StandardCharsets.UTF_8));
            byte[] rows = "0,0,0\n".repeat(100_000).getBytes(StandardCharsets.UTF_8);
            for (int i = 0; i < 200; i++) {
                out.write(rows);
            }
        }
        isRefused(file);
    }

    @Test
    void whatIsWithinTheBoundPassesUnchanged() throws IOException {
        Path file = folder.resolve("small.gz");
        byte[] text = "time_s;count;reference_mm\n".repeat(1000).getBytes(StandardCharsets.UTF_8);
        try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(file))) {
            out.write(text);
        }
        try (InputStream in = Unpacking.gunzip(Files.newInputStream(file), Files.size(file))) {
            assertThat(in.readAllBytes()).isEqualTo(text);
        }
    }
}
