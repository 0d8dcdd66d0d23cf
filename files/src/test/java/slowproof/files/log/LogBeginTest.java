package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import java.util.zip.GZIPOutputStream;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.recording.SensorScale;

class LogBeginTest {
    private static final String LOG = """
            # bench of the invented plant
            Zeit [ms];Impulse;Weg [mm];Bemerkung
            0;10;1,5;a
            2;11;1,6;b
            4;12;1,7;c
            6;13;1,8;d
            """;

    @TempDir
    Path folder;

    private LogBegin begin(byte[] content) throws IOException {
        return LogBegin.of(Files.write(folder.resolve("log"), content), request());
    }

    private static LogRequest request() {
        return LogRequest.of("log", SensorScale.ofCounts(0.05))
                .with(new ColumnMapping(Map.of(
                        ColumnRole.TIME, ColumnSource.number(1),
                        ColumnRole.COUNT, ColumnSource.number(2),
                        ColumnRole.REFERENCE, ColumnSource.number(3).in("cm"))));
    }

    @Test
    void theFirstRowsStandAsWrittenAndAsUnderstood() throws IOException {
        LogBegin begin = begin(LOG.getBytes(StandardCharsets.UTF_8));
        assertThat(begin.problems()).isEmpty();
        assertThat(begin.separator()).isEqualTo(';');
        assertThat(begin.decimal()).isEqualTo(',');
        assertThat(begin.headings()).containsExactly("Zeit [ms]", "Impulse", "Weg [mm]", "Bemerkung");
        assertThat(begin.cells()).startsWith(List.of("0", "10", "1,5", "a")).hasSize(3);
        assertThat(begin.taken())
                .extracting(ReadAs.Taken::role)
                .containsExactly(ColumnRole.TIME, ColumnRole.COUNT, ColumnRole.REFERENCE);
        // 2 ms are 0.002 s, 1.6 cm are 16 mm
        assertThat(begin.firstRows().get(1)).containsExactly(0.002, 11.0, 16.0);
    }

    @Test
    void theBeginningOfALargeLogTellsTheSameAsTheWhole() throws IOException {
        StringBuilder log = new StringBuilder(LOG);
        for (int i = 0; i < 200_000; i++) {
            log.append(8 + 2 * i).append(';').append(14 + i).append(";1,8;e\n");
        }
        byte[] content = log.toString().getBytes(StandardCharsets.UTF_16);
        LogBegin begin = begin(content);
        ReadAs whole = LogReader.read(folder.resolve("log"), request()).readAs();
        assertThat(begin.encoding()).isEqualTo(whole.encoding());
        assertThat(begin.firstRows()).isEqualTo(whole.firstRows());
        assertThat(begin.taken()).isEqualTo(whole.columns());
    }

    @Test
    void packedAndOldTextIsUnderstood() throws IOException {
        Path file = folder.resolve("packed");
        try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(file))) {
            out.write(LOG.replace("Bemerkung", "Gr\u00f6\u00dfe").getBytes(Charset.forName("windows-1252")));
        }
        LogBegin begin = LogBegin.of(file, request());
        assertThat(begin.encoding()).isEqualTo("windows-1252");
        assertThat(begin.headings().get(3)).isEqualTo("Gr\u00f6\u00dfe");
    }

    @Test
    void aWorkbookIsUnderstood() throws IOException {
        Path file = folder.resolve("book");
        try (OutputStream out = Files.newOutputStream(file);
                Workbook book = new Workbook(out, "test", "1.0")) {
            Worksheet sheet = book.newWorksheet("log");
            sheet.value(0, 0, "time_s");
            sheet.value(0, 1, "count");
            sheet.value(0, 2, "reference_mm");
            for (int i = 1; i < 6; i++) {
                sheet.value(i, 0, i / 10.0);
                sheet.value(i, 1, 7 * i);
                sheet.value(i, 2, 0.5 * i);
            }
        }
        LogBegin begin = LogBegin.of(file, LogRequest.of("book", SensorScale.ofCounts(0.05)));
        assertThat(begin.problems()).isEmpty();
        assertThat(begin.isText()).isFalse();
        assertThat(begin.firstRows().get(2)).containsExactly(0.3, 21.0, 1.5);
    }

    @Test
    void parquetIsUnderstood() throws SQLException {
        Path file = folder.resolve("log.parquet");
        try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
                Statement statement = connection.createStatement()) {
            statement.execute("COPY (SELECT i / 1000.0 AS time_s, 3 * i AS count, 0.15 * i AS reference_mm"
                    + " FROM range(1000) AS rows(i)) TO '" + file + "' (FORMAT parquet)");
        }
        LogBegin begin = LogBegin.of(file, LogRequest.of("log", SensorScale.ofCounts(0.05)));
        assertThat(begin.problems()).isEmpty();
        assertThat(begin.encoding()).isEqualTo("Parquet");
        assertThat(begin.headings()).containsExactly("time_s", "count", "reference_mm");
        assertThat(begin.firstRows())
                .containsExactly(List.of(0.0, 0.0, 0.0), List.of(0.001, 3.0, 0.15), List.of(0.002, 6.0, 0.3));
    }

    @Test
    void whatIsWrongIsToldWithItsPlaceAndTheColumnsStayKnown() throws IOException {
        LogBegin begin = begin(LOG.replace("2;11;", "2;eleven;").getBytes(StandardCharsets.UTF_8));
        assertThat(begin.headings()).hasSize(4);
        assertThat(begin.firstRows()).isEmpty();
        InputProblem problem = begin.problems().get(0);
        assertThat(problem.code()).isEqualTo(ProblemCode.NOT_A_NUMBER);
        assertThat(problem.at().line()).isEqualTo(4);
        assertThat(problem.at().column()).isEqualTo(2);
    }

    @Test
    void whatIsNoLogIsRefusedWithAMessage() throws IOException {
        for (byte[] content : List.of(
                new byte[0],
                "dear all".getBytes(StandardCharsets.UTF_8),
                new byte[] {'P', 'K', 3, 4, 1, 2, 3},
                new byte[] {'P', 'A', 'R', '1', 0, 0},
                new byte[] {0x1f, (byte) 0x8b, 8, 0, 1, 2})) {
            LogBegin begin = begin(content);
            assertThat(begin.problems()).isNotEmpty();
            assertThat(begin.hasColumns()).isFalse();
        }
    }
}
