package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.recording.ColumnSpace;
import slowproof.trial.recording.SensorScale;
import slowproof.wording.Wording;

/** A column of flags says valid or not; any other number in it is no flag, and most likely a shifted cell. */
class FlagColumnTest {
    private static final String HEAD = "time_s,count,reference_mm,valid\n";

    @TempDir
    Path folder;

    private LogResult read(Path path) {
        return LogReader.read(path, LogRequest.of("log", SensorScale.ofCounts(0.05)));
    }

    private Path text(String text) throws IOException {
        return Files.writeString(folder.resolve("log.csv"), text);
    }

    private Path parquet(String valid) throws SQLException {
        Path file = folder.resolve("log.parquet");
        try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
                Statement statement = connection.createStatement()) {
            statement.execute("COPY (SELECT i * 0.5 AS time_s, i AS count, i * 0.05 AS reference_mm, " + valid
                    + " AS valid FROM range(3) t(i)) TO '" + file + "' (FORMAT parquet)");
        }
        return file;
    }

    private List<InputProblem> problems(Path path) {
        return catchThrowableOfType(BadInputException.class, () -> read(path)).problems();
    }

    private static void assertFlag(InputProblem problem, long line, String cell) {
        assertThat(problem.code()).isEqualTo(ProblemCode.LOG_FLAG);
        assertThat(problem.at().line()).isEqualTo(line);
        assertThat(problem.at().column()).isEqualTo(4);
        assertThat(problem.at().field()).isEqualTo("valid");
        assertThat(problem.arguments().get(0)).isEqualTo(cell);
    }

    @Test
    void cellsShiftedByDecimalCommasAreRefused() throws IOException {
        List<InputProblem> problems = problems(text("time_ms,count,reference_mm,valid,\n0,0,0,000,1\n20,9,0,439,1\n"));
        assertThat(problems).hasSize(1);
        assertFlag(problems.get(0), 3, "439");
        assertThat(Wording.of(Locale.ENGLISH).problems(problems)).contains("line 3, column 4", "decimal comma");
        assertThat(Wording.of(Locale.GERMAN).problems(problems)).contains("Zeile 3, Spalte 4", "Dezimalkomma");
    }

    @Test
    void wordsAreFlagsAsTruthValuesAre() throws IOException, SQLException {
        Path words = text(HEAD + "0,0,0,TRUE\n0.5,1,0.05,false\n1,2,0.1,True\n");
        assertThat(read(words).recording().dropout().toArray()).containsExactly(0, 1, 0);
        for (String valid : List.of("i <> 1", "(i <> 1)::VARCHAR", "(i <> 1)::INT::VARCHAR")) {
            assertThat(read(parquet(valid)).recording().dropout().toArray()).containsExactly(0, 1, 0);
        }
        Path sheet = folder.resolve("log.xlsx");
        try (OutputStream out = Files.newOutputStream(sheet);
                Workbook workbook = new Workbook(out, "test", "1.0")) {
            Worksheet first = workbook.newWorksheet("log");
            String[] headings = HEAD.strip().split(",", -1);
            for (int k = 0; k < headings.length; k++) {
                first.value(0, k, headings[k]);
            }
            for (int i = 0; i < 3; i++) {
                first.value(i + 1, 0, 0.5 * i);
                first.value(i + 1, 1, i);
                first.value(i + 1, 2, 0.05 * i);
                first.value(i + 1, 3, Boolean.valueOf(i != 1));
            }
        }
        assertThat(read(sheet).recording().dropout().toArray()).containsExactly(0, 1, 0);
    }

    @Test
    void otherNumbersAndWordsAreRefusedInEveryForm() throws IOException, SQLException {
        assertFlag(problems(text(HEAD + "0,0,0,1\n0.5,1,0.05,0.5\n1,2,0.1,0\n")).get(0), 3, "0.5");
        assertFlag(
                problems(text(HEAD + "0,0,0,ok\n0.5,1,0.05,ok\n1,2,0.1,ok\n")).get(0), 2, "ok");
        assertFlag(problems(text(HEAD + "0,0,0,1\n0.5,1,0.05,-1\n1,2,0.1,0\n")).get(0), 3, "-1");
        assertFlag(problems(parquet("i")).get(0), 3, "2.0");
        assertFlag(problems(parquet("'ok'")).get(0), 1, "ok");
    }

    @Test
    void theQuickWayLeavesThemToTheThoroughOne() throws IOException {
        String good = HEAD + "0,0,0,1\n1,1,0.05,0\n";
        List<Target> targets = List.of(new Target(ColumnRole.VALID, 3, "valid", LogUnit.NONE, 1, 1, false, null));
        for (String flag : List.of("1", "0", "2", "439", "true")) {
            Path file = text(good + "2,2,0.1," + flag + "\n3,3,0.1,1\n");
            Layout layout = Objects.requireNonNull(
                    LayoutFinder.find(Files.readString(file), Dialect.RECOGNISED, new LogProblems("log.csv")));
            PlainLog.Content content =
                    new PlainLog(file, layout, targets, 0, 1000, ColumnSpace.HEAP, bytes -> {}).read();
            assertThat(content != null).as(flag).isEqualTo(flag.length() == 1 && !flag.equals("2"));
        }
    }
}
