package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.recording.SensorScale;
import slowproof.wording.Wording;

/** Decimal commas in quotes between commas: read where nothing else can be meant, else refused. */
class QuotedCommaTest {
    private static final String HEAD = "time_s,count,reference_mm\n";
    private static final String THREE = HEAD + "\"0,0\",0,\"10,25\"\n\"0,5\",1,\"11,5\"\n\"1,25\",-2,-12\n";
    private static final Dialect BOTH = new Dialect(',', ',', null, null, null);

    @TempDir
    Path folder;

    private static LogRequest request() {
        return LogRequest.of("log.csv", SensorScale.ofCounts(0.05));
    }

    private LogResult read(String text, LogRequest request) throws IOException {
        return LogReader.read(Files.writeString(folder.resolve("log.csv"), text), request);
    }

    private LogResult read(String text) throws IOException {
        return read(text, request());
    }

    private List<InputProblem> problems(String text, LogRequest request) {
        return catchThrowableOfType(BadInputException.class, () -> read(text, request))
                .problems();
    }

    private List<InputProblem> problems(String text) {
        return problems(text, request());
    }

    private static void assertThreeRows(LogResult result) {
        assertThat(result.recording().timeS().toArray()).containsExactly(0, 0.5, 1.25);
        assertThat(result.recording().indicationMm().toArray()).containsExactly(0, 0.05, -0.1);
        assertThat(result.recording().referenceMm().toArray()).containsExactly(10.25, 11.5, -12.0);
        assertThat(result.readAs().summary()).endsWith("; separator \",\", decimal \",\", UTF-8");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '\0',
            value = {
                "time_s,count,reference_mm#\"0,0\",0,\"10,25\"#\"0,5\",1,\"11,5\"#\"1,25\",-2,\"-12,0\"",
                "\"time_s\",\"count\",\"reference_mm\"#\"0\",\"0\",\"10,25\"#\"0,5\",\"1\",\"11,5\"#\"1,25\",\"-2\",\"-12\"",
                "\"Zeit [ms]\",\"Zähler\",\"Position, mm\"#\"0,0\",0,\"10,25\"#\"500,0\",1,\"11,5\"#\"1250,0\",-2,\"-12\"",
                "time_s,count,reference_mm,remark#\"0,0\",0,\"10,25\",a#\"0,5\",1,\"11,5\",\"b, c\"#\"1,25\",-2,-12,d",
                // one number alone tells: a zero never stands in front of thousands
                "time_ms,count,reference_um#0,0,\"10250,000\"#500,1,\"11500,000\"#1250,-2,\"-12000,000\"",
                "time_s,count,reference_mm#0,0,\"1,025E1\"#\"0,500\",1,\"11,500\"#\"1,250\",-2,\"-12,000\""
            })
    void areReadWhereNothingElseCanBeMeant(String lines) throws IOException {
        LogRequest request = lines.contains("Position")
                ? request()
                        .with(new ColumnMapping(Map.of(
                                ColumnRole.TIME, ColumnSource.number(1),
                                ColumnRole.COUNT, ColumnSource.number(2),
                                ColumnRole.REFERENCE, ColumnSource.number(3).in("mm"))))
                : request();
        assertThreeRows(read(lines.replace('#', '\n') + "\n", request));
        assertThreeRows(read(lines.replace("#", "\r\n") + "\r\n", request));
    }

    @Test
    void numbersThatCommasCutInTwoAreNotReadAsTwoColumns() throws IOException {
        String cut = "time_ms,count,reference_mm,temperature_c\n0,0,0,000\n20,0,0,000\n40,1,0,040\n60,7,0,340\n";
        InputProblem problem = problems(cut, request()).get(0);
        assertThat(problem.code()).isEqualTo(ProblemCode.LOG_DECIMALS_CUT);
        assertThat(Wording.of(Locale.ENGLISH).problem(problem))
                .contains("log.csv, line 2, column 3", "\"000\"", "decimal: '.'");
        assertThat(LogBegin.of(Files.writeString(folder.resolve("log.csv"), cut), request())
                        .problems())
                .hasSize(1);
        // whoever says that there is no decimal comma has two columns
        Dialect stated = new Dialect(',', '.', null, null, null);
        assertThat(read(cut, request().with(stated)).recording().referenceMm().toArray())
                .containsExactly(0, 0, 0, 0);
        // groups of another width, numbers, texts, or a column that is read are columns of their own
        for (String other : List.of("0,25\n40,1,0,025", "0,25\n40,1,0,26", "0,a\n40,1,0,b", "0.5,000\n40,1,0,040")) {
            String log = "time_ms,count,reference_mm,x\n20,0," + other + "\n";
            assertThat(read(log).recording().size()).as(other).isEqualTo(2);
        }
    }

    @Test
    void theBeginningTellsTheSame() throws IOException {
        LogBegin begin = LogBegin.of(Files.writeString(folder.resolve("log.csv"), THREE), request());
        assertThat(begin.problems()).isEmpty();
        assertThat(begin.separator()).isEqualTo(',');
        assertThat(begin.decimal()).isEqualTo(',');
        assertThat(begin.cells().get(1)).containsExactly("0,5", "1", "11,5");
        assertThat(begin.firstRows().get(1)).containsExactly(0.5, 1.0, 11.5);
    }

    @Test
    void stampsWithACommaTellNothingAboutNumbers() throws IOException {
        LogResult result = read("time,count,reference_mm\n\"06:00:00,250\",0,10.25\n\"06:00:00,500\",1,11.5\n");
        assertThat(result.readAs().decimal()).isEqualTo('.');
        assertThat(result.recording().referenceMm().toArray()).containsExactly(10.25, 11.5);
    }

    @Test
    void besideDecimalPointsTheyAreRefusedCellByCell() {
        List<InputProblem> problems = problems(HEAD + "\"0,0\",0,10.25\n\"0,5\",1,11.5\n");
        assertThat(problems)
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.DECIMAL_COMMA, ProblemCode.DECIMAL_COMMA);
        assertThat(problems.get(1).at().line()).isEqualTo(3);
        assertThat(problems.get(1).at().column()).isEqualTo(1);
        assertThat(problems.get(1).arguments()).containsExactly("0,5", ".");
    }

    @Test
    void aPointFarBelowIsRefusedToo() {
        StringBuilder text = new StringBuilder(HEAD);
        for (int i = 0; i < 20_000; i++) {
            text.append("\"").append(i).append(",5\",").append(i).append(",\"0,5\"\n");
        }
        List<InputProblem> problems = problems(text + "\"20000,5\",1,0.5\n\"20001,5\",1,\"0,5\"\n");
        assertThat(problems).extracting(InputProblem::code).containsExactly(ProblemCode.DECIMAL_COMMA);
        assertThat(problems.get(0).at().line()).isEqualTo(20_002);
        assertThat(problems.get(0).arguments()).containsExactly("0.5", ",");
    }

    @Test
    void threeDigitsBehindEveryCommaMayBeThousandsAndAreRefused() {
        List<InputProblem> problems = problems(HEAD + "0,0,\"10,250\"\n1,20,\"11,500\"\n");
        assertThat(problems)
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.LOG_COMMA_UNCLEAR, ProblemCode.LOG_COMMA_UNCLEAR);
        assertThat(Wording.of(Locale.ENGLISH).problem(problems.get(0)))
                .startsWith("log.csv, line 2, column 3 (reference_mm): \"10,250\" stands in quotes")
                .contains("decimal: ',' under dialect:");
        assertThat(Wording.of(Locale.GERMAN).problem(problems.get(0))).contains("10,250", "Dezimalkomma", "Tausender");
    }

    @Test
    void whoKnowsThatTheyAreDecimalCommasSaysSo() throws IOException {
        String text = HEAD + "0,0,\"10,250\"\n1,20,\"11,500\"\n";
        for (Dialect dialect : List.of(BOTH, new Dialect(null, ',', null, null, null))) {
            LogResult result = read(text, request().with(dialect));
            assertThat(result.recording().referenceMm().toArray()).containsExactly(10.25, 11.5);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"1,234.5", "1,234,567", "12,345,678.25", "-1,234.5"})
    void thousandsAreNamedAsSuch(String cell) {
        // a decimal comma elsewhere does not make them readable
        for (String other : List.of("7", "\"0,5\"")) {
            List<InputProblem> problems =
                    problems(HEAD + "0," + other + ",\"" + cell + "\"\n1," + other + ",\"" + cell + "\"\n");
            assertThat(problems).extracting(InputProblem::code).containsOnly(ProblemCode.DECIMAL_COMMA);
            assertThat(problems.get(problems.size() - 1).arguments()).containsExactly(cell, ".");
        }
        List<InputProblem> dotted = problems("time_s;count;reference_mm\n0,5;1;1.234,5\n1,5;1;1,5\n");
        assertThat(dotted).extracting(InputProblem::code).containsExactly(ProblemCode.DECIMAL_COMMA);
    }

    @Test
    void aNumberThatLacksItsQuotesIsNeverCutAtTheComma() {
        assertThat(problems(THREE + "\"1,5\",3,13,75\n\"1,75\",4,14\n"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.FIELD_COUNT);
        assertThat(problems(THREE + "1,5,3,13,75\n"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.FIELD_COUNT);
        // cut at the comma, the row would have one cell more, and the empty one or the remark would hide it
        String remarks = "time_s,count,reference_mm,remark\n\"0,5\",0,\"10,25\",\n\"1,5\",1,\"11,25\",\n";
        for (String row : List.of("2,5,1,\"12,25\",\n", "2,5,1,\"12,25\",ok\n", "\"2,5\",1,12,25,\n")) {
            assertThat(problems(remarks + row)).extracting(InputProblem::code).containsExactly(ProblemCode.FIELD_COUNT);
        }
        assertThat(problems(HEAD + "0,0,10\n0.5,1,11,5\n1,2,12\n"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.FIELD_COUNT_COMMA);
    }

    @Test
    void withoutHeadingsOnlyQuotesTellADecimalCommaFromASeparator() throws IOException {
        LogRequest request = request()
                .with(new ColumnMapping(Map.of(
                        ColumnRole.TIME, ColumnSource.number(1).in("s"),
                        ColumnRole.COUNT, ColumnSource.number(2),
                        ColumnRole.REFERENCE, ColumnSource.number(3).in("mm"))))
                .with(new Dialect(',', ',', 0, null, null));
        assertThreeRows(read(THREE.substring(HEAD.length()), request));
        assertThat(problems("0,001,5,50,25\n0,002,5,50,25\n", request))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.LOG_COMMA_UNQUOTED);
        // the headings have a cell less than the rows, so a comma has cut the times
        assertThat(problems(HEAD + "0,001,5,\"50,25\"\n0,002,5,\"50,25\"\n", request.with(Dialect.RECOGNISED)))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.FIELD_COUNT);
    }

    @Test
    void aLastNumberInsideOpenQuotesIsLeftOutAndNoted() throws IOException {
        for (String cut : List.of("\"1,5\",3,\"13,7", "\"1,5\",3,\"13", "\"1,5\",3,\"", "\"1,5\",3", "\"1,")) {
            LogResult result = read(THREE + cut);
            assertThreeRows(result);
            assertThat(result.notes())
                    .as(cut)
                    .extracting(Note::code)
                    .containsAnyOf(NoteCode.LOG_LAST_ROW_CUT, NoteCode.LOG_LAST_ROW_BROKEN);
        }
        assertThat(read(THREE + "\"1,5\",3,\"13,7\"").recording().size()).isEqualTo(4);
        // quotes left open above the last line take all that follows into one cell
        assertThat(problems(THREE + "\"1,5\",3,\"13,7\n2,4,14\n3,5,15"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.NOT_A_NUMBER);
    }
}
