package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.trial.input.BadInputException;
import slowproof.trial.recording.SensorScale;
import slowproof.wording.Wording;

class ParquetLogTest {
    @TempDir
    Path folder;

    /** Writes a Parquet file with another program's means: DuckDB, from a query. */
    private Path parquet(String query) throws SQLException {
        Path file = folder.resolve("log's.parquet");
        try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
                Statement statement = connection.createStatement()) {
            statement.execute("COPY (" + query + ") TO '" + file.toString().replace("'", "''") + "' (FORMAT parquet)");
        }
        return file;
    }

    private LogResult read(Path file) {
        return LogReader.read(file, LogRequest.of("log.parquet", SensorScale.ofCounts(0.05)));
    }

    @Test
    void numbersOfAnyKindAndTimeStampsAreRead() throws SQLException {
        Path file = parquet("SELECT TIMESTAMP '2026-03-01 23:59:59' + to_milliseconds(i * 10) AS \"time\","
                + " (1000 + i)::BIGINT AS count, (i * 0.05)::DECIMAL(9,2) AS \"Position [mm]\", i % 2 = 0 AS valid"
                + " FROM range(300) t(i)");
        LogResult result = read(file);
        assertThat(result.readAs().summary()).contains("time: time", "reference: Position [mm] [mm]", "Parquet");
        assertThat(result.recording().size()).isEqualTo(300);
        assertThat(result.recording().timeS().at(299)
                        - result.recording().timeS().at(0))
                .isCloseTo(2.99, within(1e-9));
        assertThat(result.recording().indicationMm().at(10)).isCloseTo(1010 * 0.05, within(1e-9));
        assertThat(result.recording().referenceMm().at(10)).isCloseTo(0.5, within(1e-12));
        assertThat(result.recording().dropout().at(1)).isEqualTo(1);
        assertThat(result.sha256()).matches("[0-9a-f]{64}");
    }

    @Test
    void clockTimesRunOnPastMidnight() throws SQLException {
        for (String kind : new String[] {"TIME", "TIMETZ"}) {
            Path file = parquet("SELECT (TIMESTAMP '2026-03-01 23:59:59' + to_milliseconds(i * 10))::TIME::" + kind
                    + " AS \"time\", i AS count, i * 0.05 AS reference_mm FROM range(300) t(i)");
            double[] times = read(file).recording().timeS().toArray();
            assertThat(times[0]).isEqualTo(86_399);
            assertThat(times[299]).isCloseTo(86_401.99, within(1e-9));
        }
    }

    @Test
    void aCountIsAlwaysWhole() throws SQLException {
        Path file = parquet("SELECT i * 0.01 AS time_s, i * 0.5 AS count, i * 0.05 AS reference_mm FROM range(3) t(i)");
        assertThatThrownBy(() -> read(file))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(Wording.of(Locale.ENGLISH).problems(refused.problems()))
                                .contains("line 2, column 2", "\"0.5\" is no whole number"));
    }

    @Test
    void textsHaveTheDecimalSignOfTheDialect() throws SQLException {
        LogRequest comma =
                LogRequest.of("log.parquet", SensorScale.ofCounts(0.05)).with(new Dialect(null, ',', null, null, null));
        Path file = parquet("SELECT i * 0.01 AS time_s, i AS count,"
                + " REPLACE((i * 0.5)::VARCHAR, '.', ',') AS reference_mm FROM range(3) t(i)");
        assertThat(LogReader.read(file, comma).recording().referenceMm().toArray())
                .containsExactly(0, 0.5, 1);
        assertThatThrownBy(() -> read(file)).isInstanceOf(BadInputException.class);
        for (String wrong : new String[] {"'1.5'", "'inf'"}) {
            Path points =
                    parquet("SELECT i * 0.01 AS time_s, i AS count, " + wrong + " AS reference_mm FROM range(3) t(i)");
            assertThatThrownBy(() -> LogReader.read(points, comma)).isInstanceOf(BadInputException.class);
        }
    }

    @Test
    void timeStampsMayBeTexts() throws SQLException {
        Path file = parquet("SELECT '23:59:59,' || (i * 4)::VARCHAR AS \"time\", i AS count, i * 0.05 AS reference_mm"
                + " FROM range(3) t(i)");
        assertThat(read(file).recording().timeS().toArray())
                .containsExactly(new double[] {86_399, 86_399.4, 86_399.8}, within(1e-9));
        Path odd = parquet("SELECT CASE WHEN i = 1 THEN 'noon' ELSE '06:00:0' || i END AS \"time\", i AS count,"
                + " i * 0.05 AS reference_mm FROM range(3) t(i)");
        assertThatThrownBy(() -> read(odd))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(Wording.of(Locale.ENGLISH).problems(refused.problems()))
                                .contains("line 2, column 1", "\"noon\""));
    }

    @Test
    void emptyCellsAreLeftOutAndCounted() throws SQLException {
        Path file = parquet("SELECT i * 0.01 AS time_s, CASE WHEN i = 7 THEN NULL ELSE i END AS count,"
                + " CASE WHEN i = 9 THEN 'nan'::DOUBLE ELSE i * 0.05 END AS reference_mm FROM range(100) t(i)");
        LogResult result = read(file);
        assertThat(result.recording().size()).isEqualTo(98);
        assertThat(result.recording().notes())
                .extracting(note -> note.code().key())
                .contains("log_rows_left_out");
    }

    @Test
    void whatIsWrongIsNamedWithItsRow() throws SQLException, IOException {
        Path wrong = parquet("SELECT i * 0.01 AS time_s, CASE WHEN i = 4 THEN 'x' ELSE i::VARCHAR END AS count,"
                + " CASE WHEN i = 6 THEN 'inf'::DOUBLE ELSE i * 0.05 END AS reference_mm FROM range(100) t(i)");
        assertThatThrownBy(() -> read(wrong))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(Wording.of(Locale.ENGLISH).problems(refused.problems()))
                                .contains("line 5, column 2", "\"x\"")
                                .contains("line 7, column 3"));
        Path nothing = parquet("SELECT 1.0 AS time_s, 2 AS count, 3.0 AS reference_mm WHERE false");
        assertThatThrownBy(() -> read(nothing))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(Wording.of(Locale.ENGLISH).problems(refused.problems()))
                                .contains("columns and no rows: time_s, count, reference_mm"));
        Path cut = Files.write(folder.resolve("cut.parquet"), "PAR1 and no more".getBytes(StandardCharsets.UTF_8));
        assertThatThrownBy(() -> read(cut))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(refused.problems().get(0).code().key())
                                .isEqualTo("file_not_readable"));
    }
}
