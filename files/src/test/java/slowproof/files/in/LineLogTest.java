package slowproof.files.in;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

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
import java.time.LocalDateTime;
import java.util.Locale;
import java.util.Objects;
import java.util.function.IntFunction;
import java.util.zip.GZIPOutputStream;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.trial.input.BadInputException;
import slowproof.trial.line.LineProfile;
import slowproof.wording.Wording;

/** The same speed log in every form that logs may have, and what is said of logs and steps that cannot be used. */
class LineLogTest {
    private static final int ROWS = 101;
    private static final Charset OLD = Charset.forName("windows-1252");

    @TempDir
    Path folder;

    /** A trapezoid: up to 24 m/min (400 mm/s) within 1 s, 5 s, down within 1 s, at rest for 3 s; 2400 mm in all. */
    private static double metresPerMinute(int row) {
        double t = 0.1 * row;
        return 24 * Math.max(0, Math.min(1, Math.min(t, 7 - t)));
    }

    private static String rows(String heading, IntFunction<String> row) {
        StringBuilder text = new StringBuilder(heading);
        for (int i = 0; i < ROWS; i++) {
            text.append(row.apply(i)).append('\n');
        }
        return text.toString();
    }

    private static String comma(String format, Object... values) {
        return String.format(Locale.GERMANY, format, values);
    }

    private static String point(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    private LoadedLine read(String file, String further) throws IOException {
        Path line = folder.resolve("line.yaml");
        Files.writeString(line, "piece: {length_mm: 2400, tolerance_mm: 2}\nprofile: " + file + "\n" + further);
        return LineReader.read(line);
    }

    private LineProfile profile(String file, String further) throws IOException {
        return Objects.requireNonNull(read(file, further).line().log());
    }

    private String text(String name, Charset charset, String text) throws IOException {
        Files.write(folder.resolve(name), text.getBytes(charset));
        return name;
    }

    private static void assertTrapezoid(LineProfile profile) {
        assertThat(profile.netTravelMm()).isCloseTo(2400, within(0.5));
        assertThat(profile.size()).isEqualTo(ROWS);
        assertThat(profile.durationS()).isCloseTo(10, within(1e-9));
        for (int i = 0; i < ROWS; i++) {
            double wanted = metresPerMinute(i) * 1000 / 60;
            assertThat(profile.speedMmPerS(i)).as("row %s", i).isCloseTo(wanted, within(0.3));
        }
    }

    @Test
    void textOfAnyKind() throws IOException {
        assertTrapezoid(profile(
                text(
                        "plain.csv",
                        StandardCharsets.UTF_8,
                        rows("time_s,speed_m_min\n", i -> point("%.1f,%.4f", 0.1 * i, metresPerMinute(i)))),
                ""));
        assertTrapezoid(profile(
                text(
                        "old.csv",
                        OLD,
                        rows(
                                "Anlage Süd, Bahn 2\nZeit [s];Geschwindigkeit [m/min];Strom [A]\n",
                                i -> comma("%.1f;%.4f;%.2f", 0.1 * i, metresPerMinute(i), 1.5))),
                ""));
        assertTrapezoid(profile(
                text(
                        "wide.txt",
                        StandardCharsets.UTF_16,
                        rows("time_ms\tspeed_mm_s\n", i -> comma("%d\t%.3f", 100 * i, metresPerMinute(i) * 1000 / 60))),
                ""));
        assertTrapezoid(profile(
                text(
                        "stamps.csv",
                        StandardCharsets.UTF_8,
                        rows(
                                "timestamp;v [m/min]\n",
                                i -> LocalDateTime.of(2026, 3, 1, 23, 59, 58).plusNanos(100_000_000L * i)
                                        + comma(";%.4f", metresPerMinute(i)))),
                ""));
    }

    @Test
    void packedText() throws IOException {
        try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(folder.resolve("log.csv.gz")))) {
            out.write(rows("time_s,speed m/min\n", i -> point("%.1f,%.4f", 0.1 * i, metresPerMinute(i)))
                    .getBytes(StandardCharsets.UTF_8));
        }
        assertTrapezoid(profile("log.csv.gz", ""));
    }

    @Test
    void firstSheetOfAWorkbook() throws IOException {
        try (OutputStream out = Files.newOutputStream(folder.resolve("log.xlsx"));
                Workbook workbook = new Workbook(out, "test", "1.0")) {
            Worksheet sheet = workbook.newWorksheet("log");
            sheet.value(0, 0, "time_s");
            sheet.value(0, 1, "line speed [ft/min]");
            for (int i = 0; i < ROWS; i++) {
                sheet.value(i + 1, 0, 0.1 * i);
                sheet.value(i + 1, 1, metresPerMinute(i) / 0.3048);
            }
        }
        assertTrapezoid(profile("log.xlsx", ""));
    }

    @Test
    void columnsOfAParquetFile() throws IOException, SQLException {
        String file = folder.resolve("log.parquet").toString();
        try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
                Statement statement = connection.createStatement()) {
            statement.execute(
                    "COPY (SELECT i * 0.1 AS time_s, greatest(0, least(1, i * 0.1, 7 - i * 0.1)) * 0.4 AS speed_m_s"
                            + " FROM range(" + ROWS + ") t(i)) TO '" + file + "' (FORMAT parquet)");
        }
        assertTrapezoid(profile("log.parquet", ""));
    }

    @Test
    void aLogWithoutHeadingsByWhatTheLineFileSays() throws IOException {
        String file = text(
                "bare.txt", StandardCharsets.UTF_8, rows("", i -> comma("x;%.4f;%.1f", metresPerMinute(i), 0.1 * i)));
        String keys = "columns: {time: {column: 3, unit: s}, speed: {column: 2, unit: m/min}}\n"
                + "dialect: {separator: \";\", decimal: \",\", header: false}\n";
        assertTrapezoid(profile(file, keys));
    }

    @Test
    void aLastRowThatBrokeOffIsLeftOutAndSaid() throws IOException {
        String whole = rows("time_s,speed_m_min\n", i -> point("%.1f,%.4f", 0.1 * i, metresPerMinute(i)));
        LoadedLine line = read(text("cut.csv", StandardCharsets.UTF_8, whole + "10.1"), "");
        assertThat(Objects.requireNonNull(line.line().log()).size()).isEqualTo(ROWS);
        assertThat(line.notes()).extracting(note -> note.code().key()).contains("log_last_row_broken", "log_read_as");
        assertThat(line.sources()).extracting(SourceFile::name).containsExactly("line.yaml", "cut.csv");
    }

    private void assertRefused(String log, String... said) throws IOException {
        String file = text("log.csv", StandardCharsets.UTF_8, log);
        assertThatThrownBy(() -> read(file, ""))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(Wording.of(Locale.ENGLISH).problems(refused.problems()))
                                .contains(said));
    }

    @Test
    void whatIsWrongWithALogIsNamedWithItsPlace() throws IOException {
        assertRefused("time_s,speed_m_min\n0,1\n1,x\n2,3\n", "log.csv, line 3, column 2", "\"x\" is not a number");
        assertRefused("time_s,speed_m_min\n0,1\n1,\n2,3\n", "log.csv, line 3, column 2");
        assertRefused("time_s,speed_m_min\n0,1\n2,2\n1,3\n", "log.csv, line 4, column 1");
        assertRefused("time_s,speed_km_h\n0,1\n1,2\n2,3\n", "speed_m_min");
        assertRefused("time_s,count\n0,1\n1,2\n2,3\n", "speed_m_min");
        assertRefused("time_s,speed_m_min\n0,1\n1,2\n", "log.csv");
    }

    @Test
    void aMisspeltStepGivesOneMessage() throws IOException {
        Path line = folder.resolve("line.yaml");
        Files.writeString(
                line,
                "piece: {length_mm: 1000, tolerance_mm: 2}\ncycle:\n"
                        + "  - {ramp_to_mm_s: 100, acceleration_mm_s2: 500}\n"
                        + "  - {hold_resst: true}\n"
                        + "  - {ramp_to_mm_s: 0, acceleration_mm_s2: 500}\n");
        assertThatThrownBy(() -> LineReader.read(line)).isInstanceOfSatisfying(BadInputException.class, refused -> {
            assertThat(refused.problems()).hasSize(1);
            assertThat(Wording.of(Locale.ENGLISH).problems(refused.problems()))
                    .contains("line.yaml, line 4", "hold_resst", "hold_rest");
        });
    }
}
