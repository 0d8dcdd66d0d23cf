package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.zip.GZIPOutputStream;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import slowproof.files.cache.CacheFolder;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.recording.Recording;
import slowproof.trial.recording.SensorScale;

class LogReaderTest {
    @TempDir
    Path folder;

    private static final SensorScale SCALE = SensorScale.ofCounts(0.05);

    private Path file(String text) throws IOException {
        return file(text, StandardCharsets.UTF_8);
    }

    private Path file(String text, Charset charset) throws IOException {
        return Files.write(folder.resolve("log.csv"), text.getBytes(charset));
    }

    private LogResult read(String text) throws IOException {
        return LogReader.read(file(text), LogRequest.of("log.csv", SCALE));
    }

    private List<InputProblem> problems(String text, LogRequest request) throws IOException {
        Path path = file(text);
        BadInputException refused = catchThrowableOfType(BadInputException.class, () -> LogReader.read(path, request));
        return refused.problems();
    }

    private List<InputProblem> problems(String text) throws IOException {
        return problems(text, LogRequest.of("log.csv", SCALE));
    }

    private static void assertThreeRows(Recording recording) {
        assertThat(recording.timeS().toArray()).containsExactly(0, 0.5, 1.25);
        assertThat(recording.indicationMm().toArray()).containsExactly(0, 0.05, -0.1);
        assertThat(recording.referenceMm().toArray()).containsExactly(10.25, 11.5, -12.0);
    }

    @Test
    void plainFileWithTheUsualHeadings() throws IOException {
        LogResult result = read("time_s,count,reference_mm\n0,0,10.25\n0.5,1,11.5\n1.25,-2,-12\n");
        assertThreeRows(result.recording());
        assertThat(result.readAs().summary())
                .isEqualTo(
                        "time: time_s [s], count: count, reference: reference_mm [mm]; separator \",\", decimal \".\", UTF-8");
        assertThat(result.readAs().firstRows().get(1)).containsExactly(0.5, 1.0, 11.5);
        // computed with sha256sum
        assertThat(result.sha256()).hasSize(64).matches("[0-9a-f]+");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "time_ms;count;reference_cm#0;0;1,025#500;1;1,15#1250;-2;-1,2",
                "Zeit [ms];Zähler;Position [mm]#0;0;10,25#500;1;11,5#1250;-2;-12,0",
                "time_us\tcount\treference_um#0\t0\t10250#500000\t1\t11500#1250000\t-2\t-12000",
                "time;count;reference#s;;mm#0;0;10.25#0.5;1;11.5#1.25;-2;-12",
                "Bench log 7; recorded by night shift##time (ms);counts;ref (mm);temperature#0;0;10.25;21#500;1;11.5;21#1250;-2;-12;21",
                "\"time_s\",\"count\",\"reference_mm\"#\"0\",\"0\",\"10.25\"#\"0.5\",\"1\",\"11.5\"#\"1.25\",\"-2\",\"-12\"",
                "reference_mm,spare,count,time_s#10.25,x,0,0#11.5,y,1,0.5#-12,z,-2,1.25",
                "count time_s reference_mm#0 0 10.25#1 0.5 11.5#-2 1.25 -12",
                "time_s;count;reference_mm;#0;0;10.25;#0.5;1;11.5;#1.25;-2;-12;",
                "time_s,count,reference_mm#0e0,0,+10.25#5e-1,1,1.15E1#1.25,-2.0,-12"
            })
    void dialectsAreRecognised(String lines) throws IOException {
        assertThreeRows(read(lines.replace('#', '\n') + "\n").recording());
        assertThreeRows(read(lines.replace("#", "\r\n") + "\r\n").recording());
    }

    @Test
    void encodingsAreRecognised() throws IOException {
        String text = "Zeit [s];Zähler;Position [mm]\n0;0;10,25\n0,5;1;11,5\n1,25;-2;-12,0\n";
        for (Charset charset : List.of(
                StandardCharsets.UTF_8,
                StandardCharsets.UTF_16LE,
                StandardCharsets.UTF_16BE,
                Charset.forName("windows-1252"))) {
            LogResult result = LogReader.read(file(text, charset), LogRequest.of("log.csv", SCALE));
            assertThreeRows(result.recording());
            assertThat(result.readAs().encoding()).isEqualTo(charset.name());
        }
        for (Charset charset : List.of(StandardCharsets.UTF_8, StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE)) {
            LogResult result = LogReader.read(file("\ufeff" + text, charset), LogRequest.of("log.csv", SCALE));
            assertThreeRows(result.recording());
        }
    }

    @Test
    void packedFileReadsAsThePlainOne() throws IOException {
        Path packed = folder.resolve("log.csv.gz");
        try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(packed))) {
            out.write("time_s,count,reference_mm\n0,0,10.25\n0.5,1,11.5\n1.25,-2,-12\n"
                    .getBytes(StandardCharsets.US_ASCII));
        }
        assertThreeRows(
                LogReader.read(packed, LogRequest.of("log.csv.gz", SCALE)).recording());
    }

    @Test
    void mappingNamesColumnsByNumberOrHeadingWithUnitAndRoll() throws IOException {
        LogRequest request = LogRequest.of("log.csv", SCALE)
                .with(new ColumnMapping(Map.of(
                        ColumnRole.TIME, ColumnSource.number(3).in("ms"),
                        ColumnRole.COUNT, ColumnSource.heading("enc1"),
                        ColumnRole.REFERENCE,
                                ColumnSource.heading("WHEEL").in("deg").onRoll(720),
                        ColumnRole.LEVEL, ColumnSource.number(4).below(50))));
        LogResult result =
                LogReader.read(file("enc1,wheel,tick,quality\n0,5.125,0,99\n1,5.75,500,40\n-2,-6,1250,50\n"), request);
        assertThreeRows(result.recording());
        assertThat(result.recording().dropout().toArray()).containsExactly(0, 1, 0);
    }

    @Test
    void fileWithoutHeadingsIsReadByNumbers() throws IOException {
        LogRequest request = LogRequest.of("log.csv", SCALE)
                .with(new ColumnMapping(Map.of(
                        ColumnRole.TIME, ColumnSource.number(1).in("s"),
                        ColumnRole.COUNT, ColumnSource.number(2),
                        ColumnRole.REFERENCE, ColumnSource.number(3).in("mm"))))
                .with(new Dialect(';', ',', 0, null, null));
        assertThreeRows(LogReader.read(file("0;0;10,25\n0,5;1;11,5\n1,25;-2;-12,0\n"), request)
                .recording());
    }

    @Test
    void withoutHeadingsAndMappingTheFirstRowIsShown() throws IOException {
        List<InputProblem> problems = problems("0;0;10,25\n0,5;1;11,5\n");
        assertThat(problems).extracting(InputProblem::code).containsOnly(ProblemCode.LOG_NO_HEADINGS);
        assertThat(problems.get(0).arguments()).containsExactly("time_s", 3, "0 | 0 | 10,25");
    }

    @Test
    void everyBadCellIsToldWithLineColumnAndHeading() throws IOException {
        List<InputProblem> problems =
                problems("# a comment\ntime_s,count,reference_mm\n0,0,1\n1,x7,2\n\n2,2,NaN\n3,3\n4,4,4\n");
        assertThat(problems)
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.NOT_A_NUMBER, ProblemCode.NOT_FINITE, ProblemCode.FIELD_COUNT);
        assertThat(problems).extracting(problem -> problem.at().line()).containsExactly(4L, 6L, 7L);
        assertThat(problems.get(0).at().column()).isEqualTo(2);
        assertThat(problems.get(0).at().field()).isEqualTo("count");
        assertThat(problems.get(0).arguments()).containsExactly("x7", ".");
        assertThat(problems.get(2).arguments()).containsExactly(2, 3);
    }

    @Test
    void problemsAreToldUpToTwentyLinesAndTheOthersCounted() throws IOException {
        StringBuilder text = new StringBuilder("time_s,count,reference_mm\n0,0,1\n1,1,1\n");
        for (int i = 2; i < 100; i++) {
            text.append(i).append(",?,1\n");
        }
        List<InputProblem> problems = problems(text.toString());
        // rows 2 to 99 are wrong: 19 told, 79 counted from line 23 on
        assertThat(problems).hasSize(20);
        assertThat(problems.get(19).code()).isEqualTo(ProblemCode.LOG_MORE_PROBLEMS);
        assertThat(problems.get(19).arguments()).containsExactly(79L);
        assertThat(problems.get(19).at().line()).isEqualTo(23);
    }

    @Test
    void decimalCommaInAFileOfPointsIsNamedAsSuch() throws IOException {
        List<InputProblem> problems = problems("time_s;count;reference_mm\n0.0;0;1.5\n0.5;1;2,5\n");
        assertThat(problems).extracting(InputProblem::code).containsExactly(ProblemCode.DECIMAL_COMMA);
    }

    @Test
    void decimalCommasBetweenCommasAreRefused() throws IOException {
        assertThat(problems("time_s,count\n0,5,1,0\n1,0,2,0\n"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.FIELD_COUNT_COMMA);
    }

    @Test
    void missingColumnsAreNamedWithWhatIsThere() throws IOException {
        List<InputProblem> problems = problems("time_s,speed\n0,1\n1,2\n");
        assertThat(problems)
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.COLUMN_MISSING, ProblemCode.REFERENCE_MISSING);
        assertThat(problems.get(0).arguments()).containsExactly("count", "time_s, speed");
    }

    @Test
    void aUnitIsNeverGuessed() throws IOException {
        assertThat(problems("time,count,reference_mm\n0,0,1\n1,1,2\n"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.UNKNOWN_UNIT);
        assertThat(problems("time_s,count,reference_parsec\n0,0,1\n1,1,2\n"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.UNKNOWN_UNIT);
        assertThat(problems("time_s,count,reference_deg\n0,0,1\n1,1,2\n"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.LOG_CIRCUMFERENCE_MISSING);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "time_s,count,reference_mm#ms,,mm|1|s|ms|time",
                "time_s,count,reference_mm#s,,cm|3|mm|cm|reference",
                "time_s,count,reference_mm#s,,mm/s|3|mm|mm/s|reference",
                "time_s,count,position_um [mm]|3|um|mm|reference",
                "time_s,count,position_in [mm]|3|in|mm|reference",
                "time_s,count,position (mm)#,,um|3|mm|um|reference"
            })
    void twoUnitsOfAColumnAreContradictory(String head, int column, String first, String second, String key)
            throws IOException {
        String text = head.replace('#', '\n') + "\n0,0,10.25\n0.5,1,11.5\n";
        List<InputProblem> problems = problems(text);
        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).code()).isEqualTo(ProblemCode.LOG_UNITS_TWO);
        assertThat(problems.get(0).at().line()).isEqualTo(1);
        assertThat(problems.get(0).at().column()).isEqualTo(column);
        assertThat(problems.get(0).arguments()).containsExactly(first, second, key);
        ColumnMapping stated = new ColumnMapping(Map.of(
                ColumnRole.TIME, ColumnSource.number(1).in("s"),
                ColumnRole.COUNT, ColumnSource.number(2),
                ColumnRole.REFERENCE, ColumnSource.number(3).in("mm")));
        LogRequest request = LogRequest.of("log.csv", SCALE).with(stated);
        assertThat(LogReader.read(file(text), request).recording().referenceMm().toArray())
                .containsExactly(10.25, 11.5);
        ColumnMapping bare = new ColumnMapping(Map.of(
                ColumnRole.TIME, ColumnSource.number(1),
                ColumnRole.COUNT, ColumnSource.number(2),
                ColumnRole.REFERENCE, ColumnSource.number(3)));
        assertThat(problems(text, LogRequest.of("log.csv", SCALE).with(bare)))
                .extracting(InputProblem::code)
                .contains(ProblemCode.LOG_UNITS_TWO);
    }

    @Test
    void aRowOfUnitsMayRepeatTheUnitOfTheHeading() throws IOException {
        assertThreeRows(read("time_s,count,Position [mm]\nsec,-,mm\n0,0,10.25\n0.5,1,11.5\n1.25,-2,-12\n")
                .recording());
        assertThreeRows(read("Time in s,count,Position in [mm]\n0,0,10.25\n0.5,1,11.5\n1.25,-2,-12\n")
                .recording());
        assertThreeRows(read("Zeit in ms,count,position in (cm)\n0,0,1.025\n500,1,1.15\n1250,-2,-1.2\n")
                .recording());
        assertThreeRows(read("time_s,count,reference_mm\n[s],,[MM]\n0,0,10.25\n0.5,1,11.5\n1.25,-2,-12\n")
                .recording());
    }

    @Test
    void aSignThatMaySeparateThousandsIsRefusedUntilTheTrialSaysWhatItIs() throws IOException {
        String text = "time_ms;count;reference_mm\n980;7;10\n1.000;8;999\n1.020;9;1.002\n";
        List<InputProblem> problems = problems(text);
        assertThat(problems)
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.LOG_THOUSANDS_UNCLEAR, ProblemCode.LOG_THOUSANDS_UNCLEAR);
        assertThat(problems.get(0).at().line()).isEqualTo(3);
        assertThat(problems.get(1).at().line()).isEqualTo(4);
        assertThat(problems.get(1).at().column()).isEqualTo(3);
        assertThat(problems.get(1).arguments()).containsExactly("1.002", ".");
        assertThat(LogBegin.of(file(text), LogRequest.of("log.csv", SCALE)).problems())
                .extracting(InputProblem::code)
                .contains(ProblemCode.LOG_THOUSANDS_UNCLEAR);
        LogRequest stated = LogRequest.of("log.csv", SCALE).with(new Dialect(null, '.', null, null, null));
        Recording recording = LogReader.read(file(text.replace("980;7;10\n", "0.98;7;10\n")), stated)
                .recording();
        assertThat(recording.referenceMm().toArray()).containsExactly(10, 999, 1.002);
    }

    @Test
    void aCountIsAlwaysWhole() throws IOException {
        List<InputProblem> problems = problems("time_s;count;reference_mm\n0;999.0;10.25\n0.5;1.005;11.5\n");
        assertThat(problems).extracting(InputProblem::code).containsExactly(ProblemCode.LOG_COUNT_NOT_WHOLE);
        assertThat(problems.get(0).at().line()).isEqualTo(3);
        assertThat(problems.get(0).at().column()).isEqualTo(2);
        assertThat(problems.get(0).arguments()).containsExactly("1.005", ".");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "03/01/2026 06:00:00.000",
                "06:00:00.000 AM",
                "06:00:00:020",
                "2026-02-30T06:00:00",
                "03.25.2026 06:00:00",
                "morning"
            })
    void aTimeOfAnUnknownFormIsShownWithThoseThatAreRead(String cell) throws IOException {
        List<InputProblem> problems = problems("time,count,reference_mm\n" + cell + ",0,10.25\n" + cell + ",1,11.5\n");
        assertThat(problems).extracting(InputProblem::code).containsExactly(ProblemCode.LOG_STAMP);
        assertThat(problems.get(0).at().line()).isEqualTo(2);
        assertThat(problems.get(0).at().column()).isEqualTo(1);
        assertThat(problems.get(0).arguments()).containsExactly(cell, TimeStamps.FORMS);
    }

    @Test
    void everyFormThatMessagesNameIsRead() {
        assertThat(TimeStamps.FORMS.split(", ")).hasSize(4).allMatch(TimeStamps::looksLike);
    }

    @Test
    void headingsOfAnotherNumberThanTheFieldsOfTheRowsAreNamedAsSuch() throws IOException {
        for (String row : List.of("0,0,10,", "7,0,0,10", "0,000,0,10", "0,0")) {
            List<InputProblem> problems = problems("time_s,count,reference_mm\n" + row + "\n" + row + "\n");
            assertThat(problems).as(row).extracting(InputProblem::code).containsExactly(ProblemCode.LOG_HEADING_FIELDS);
            assertThat(problems.get(0).at().line()).isEqualTo(1);
            assertThat(problems.get(0).arguments()).containsExactly(3, row.split(",", -1).length, ",");
        }
        assertThat(problems("operator;night shift\n0;0;10\n1;1;11\n"))
                .as("a remark above the data is no heading")
                .extracting(InputProblem::code)
                .containsOnly(ProblemCode.LOG_NO_HEADINGS);
    }

    @Test
    void twoColumnsOfOneQuantityAreBothNamed() throws IOException {
        List<InputProblem> problems = problems("time_s,time_ms,count,reference_mm\n0,0,0,10\n1,1000,1,11\n");
        assertThat(problems).extracting(InputProblem::code).containsExactly(ProblemCode.LOG_COLUMN_TWO);
        assertThat(problems.get(0).arguments()).containsExactly("time_s", "time_ms", "time");
        assertThat(problems("time_s,count,reference_mm,reference_mm\n0,0,0,10\n1,1,1,11\n"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.COLUMN_TWICE);
    }

    @Test
    void aNameWithAUnitOfItsOwnIsMissedAndNotCalledWithoutUnit() throws IOException {
        List<InputProblem> problems = problems("time_s,count,axis_pos [mm]\n0,0,10.25\n0.5,1,11.5\n");
        assertThat(problems).extracting(InputProblem::code).containsExactly(ProblemCode.REFERENCE_MISSING);
        assertThat(problems.get(0).arguments()).containsExactly("reference_mm", "time_s, count, axis_pos [mm]");
    }

    @Test
    void emptyFileHeaderOnlyAndTextAreRefused() throws IOException {
        assertThat(problems("")).extracting(InputProblem::code).containsExactly(ProblemCode.FILE_EMPTY);
        assertThat(problems("\n\n# nothing\n")).extracting(InputProblem::code).containsExactly(ProblemCode.FILE_EMPTY);
        assertThat(problems("time_s,count,reference_mm\n"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.HEADER_ONLY);
        assertThat(problems("dear diary\ntoday nothing\nhappened\n"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.LOG_NO_ROWS);
        assertThatThrownBy(() -> LogReader.read(folder.resolve("none.csv"), LogRequest.of("none.csv", SCALE)))
                .isInstanceOf(BadInputException.class);
    }

    @Test
    void lastRowThatBrokeOffIsLeftOutAndNoted() throws IOException {
        LogResult result = read("time_s,count,reference_mm\n0,0,10.25\n0.5,1,11.5\n1.25,-2,-12\n1.5,4");
        assertThreeRows(result.recording());
        assertThat(result.notes())
                .extracting(Note::code)
                .containsExactly(NoteCode.LOG_LAST_ROW_BROKEN, NoteCode.LOG_READ_AS);
    }

    @Test
    void utf16CutWithinACharacterLosesItsLastRowOnly() throws IOException {
        String text = "\ufefftime_s,count,reference_mm\n0,0,10.25\n0.5,1,11.50\n1.25,-2,-12.00\n1.5,4,13.7";
        for (Charset charset : List.of(StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE)) {
            byte[] bytes = text.getBytes(charset);
            Path cut = Files.write(folder.resolve("log.csv"), Arrays.copyOf(bytes, bytes.length - 1));
            for (Charset asked : new Charset[] {null, StandardCharsets.UTF_16}) {
                LogRequest request = LogRequest.of("log.csv", SCALE).with(new Dialect(null, null, null, asked, null));
                LogResult result = LogReader.read(cut, request);
                assertThreeRows(result.recording());
                assertThat(result.notes()).extracting(Note::code).contains(NoteCode.LOG_LAST_ROW_CUT);
                assertThat(result.sha256()).isEqualTo(RawLog.sha256Of(cut));
            }
        }
    }

    @Test
    void lastNumberThatMayBeCutShortIsLeftOutAndNoted() throws IOException {
        String three = "time_s,count,reference_mm\n0,0,10.25\n0.5,1,11.50\n1.25,-2,-12.00\n";
        for (String cut : List.of("1.5,3,13.75", "1.50,31,13.75")) {
            // whole to its last sign: two decimals like all others
            assertThat(read(three + cut).recording().size()).as(cut).isEqualTo(4);
        }
        for (String cut :
                List.of("1.5,3,13.7", "1.5,3,13.", "1.5,3,13", "1.5,3,1", "1.5,3,-", "1.5,3,13.7e", "1.5,3,+")) {
            LogResult result = read(three + cut);
            assertThreeRows(result.recording());
            assertThat(result.notes())
                    .as(cut)
                    .extracting(Note::code)
                    .containsExactly(NoteCode.LOG_LAST_ROW_CUT, NoteCode.LOG_READ_AS);
            assertThat(result.notes().get(0).arguments().get(0)).isEqualTo(5L);
        }
        // with its line end the row is what its writer meant
        assertThat(read(three + "1.5,3,13.7\n").recording().size()).isEqualTo(4);
        assertThat(read(three + "1.5,3,13.7\n# switched off").recording().size())
                .isEqualTo(4);
        assertThat(problems(three + "1.5,3,-\n"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.NOT_A_NUMBER);
        // nothing that is wanted stands at the end
        assertThat(read("time_s,count,reference_mm,note\n0,0,1,a\n1,1,2,b\n2,2,3,nig")
                        .recording()
                        .size())
                .isEqualTo(3);
    }

    @Test
    void lastCountOrStampThatMayBeCutShortIsLeftOut() throws IOException {
        String counts = "time_s,reference_mm,count\n0,10,1000\n1,11,1010\n";
        assertThat(read(counts + "2,12,1020").recording().size()).isEqualTo(3);
        assertThat(read(counts + "2,12,102").recording().size()).isEqualTo(2);
        String varying = "time_s,reference_mm,count\n0,10,998\n1,11,1010\n";
        assertThat(read(varying + "2,12,1020").recording().size()).isEqualTo(2);
        String stamps = "reference_mm,count,time\n10,1,06:00:00.250\n11,2,06:00:00.500\n";
        assertThat(read(stamps + "12,3,06:00:00.750").recording().size()).isEqualTo(3);
        assertThat(read(stamps + "12,3,06:00:00.7").recording().size()).isEqualTo(2);
        assertThat(read(stamps + "12,3,06:00").recording().size()).isEqualTo(2);
    }

    @Test
    void emptyCellsLeaveTheirRowOut() throws IOException {
        LogResult result = read("time_s,count,reference_mm\n0,0,10.25\n0.25,,10\n0.5,1,11.5\n0.75,1,\n1.25,-2,-12\n");
        assertThreeRows(result.recording());
        assertThat(result.recording().notes()).extracting(Note::code).containsExactly(NoteCode.LOG_ROWS_LEFT_OUT);
    }

    @Test
    void timeStampsAreSecondsAndClockTimesRunPastMidnight() throws IOException {
        assertThat(read("time;count;reference_mm\n2026-03-01T23:59:59.5Z;0;1\n2026-03-02T00:00:00.75Z;1;2\n")
                        .recording()
                        .timeS()
                        .toArray())
                .containsExactly(86_399.5, 86_400.75);
        assertThat(read("Zeit;Zähler;Position [mm]\n01.03.2026 06:00:00,250;0;1\n01.03.2026 06:00:00,500;1;2\n")
                        .recording()
                        .timeS()
                        .toArray())
                .containsExactly(21_600.25, 21_600.5);
        assertThat(read("time,count,reference_mm\n23:59:59,0,1\n0:00:01,1,2\n0:00:02,1,2\n")
                        .recording()
                        .timeS()
                        .toArray())
                .containsExactly(86_399, 86_401, 86_402);
        assertThat(problems("time,count,reference_mm\n23:59:59,0,1\n24:00:01,1,2\n"))
                .extracting(InputProblem::code)
                .containsExactly(ProblemCode.LOG_STAMP);
    }

    @Test
    void partsOfTwoClocksAskOnlyForTheirOwnColumns() throws IOException {
        LogRequest request = LogRequest.of("log.csv", SCALE);
        Recording sensor = LogReader.read(file("time_s,count\n0,1\n1,2\n2,3\n"), request.as(LogPart.SENSOR))
                .recording();
        assertThat(sensor.hasReference()).isFalse();
        Recording axis = LogReader.read(file("time_s,position_mm\n0,1\n1,2\n2,3\n"), request.as(LogPart.REFERENCE))
                .recording();
        assertThat(axis.hasIndication()).isFalse();
        assertThat(axis.referenceMm().toArray()).containsExactly(1, 2, 3);
    }

    @Test
    void firstSheetOfAWorkbookIsReadWithItsGapsAndDates() throws IOException {
        Path book = folder.resolve("log.xlsx");
        try (OutputStream out = Files.newOutputStream(book);
                Workbook workbook = new Workbook(out, "test", "1.0")) {
            Worksheet sheet = workbook.newWorksheet("log");
            String[] headings = {"time", "count", "reference_mm", "note"};
            for (int i = 0; i < headings.length; i++) {
                sheet.value(1, i, headings[i]);
            }
            double[] position = {10.25, 11.5, -12};
            double[] count = {0, 1, -2};
            double[] seconds = {0, 0.5, 1.25};
            for (int row = 0; row < 3; row++) {
                sheet.value(row + 3, 0, LocalDateTime.of(2026, 3, 1, 6, 0).plusNanos((long) (1e9 * seconds[row])));
                sheet.style(row + 3, 0).format("yyyy-MM-dd hh:mm:ss.000").set();
                sheet.value(row + 3, 1, count[row]);
                sheet.value(row + 3, 2, position[row]);
            }
            sheet.value(4, 3, "night\tshift");
        }
        LogResult result = LogReader.read(book, LogRequest.of("log.xlsx", SCALE));
        Recording recording = result.recording();
        assertThat(recording.timeS().at(1) - recording.timeS().at(0)).isCloseTo(0.5, within(2e-6));
        assertThat(recording.indicationMm().toArray()).containsExactly(0, 0.05, -0.1);
        assertThat(recording.referenceMm().toArray()).containsExactly(10.25, 11.5, -12.0);
        assertThat(result.readAs().encoding()).isEqualTo("XLSX");
        assertThat(result.readAs().summary()).endsWith("; XLSX").doesNotContain("separator");
        assertThat(result.sha256()).hasSize(64);
    }

    @Test
    void clockTimesOfAWorkbookRunOnPastMidnight() throws IOException {
        double second = 1.0 / 86_400;
        // the clock starts again at midnight, or its cells count on as a span of time does
        for (double afterMidnight : new double[] {0, 1}) {
            Path book = folder.resolve("log.xlsx");
            try (OutputStream out = Files.newOutputStream(book);
                    Workbook workbook = new Workbook(out, "test", "1.0")) {
                Worksheet sheet = workbook.newWorksheet("log");
                String[] headings = {"time", "count", "reference_mm"};
                double[] days = {1 - 2 * second, 1 - second, afterMidnight, afterMidnight + second};
                for (int k = 0; k < headings.length; k++) {
                    sheet.value(0, k, headings[k]);
                    for (int row = 0; row < days.length; row++) {
                        sheet.value(row + 1, k, k == 0 ? days[row] : row);
                        sheet.style(row + 1, k)
                                .format(k == 0 ? "hh:mm:ss.000" : "0.00")
                                .set();
                    }
                }
            }
            Recording recording =
                    LogReader.read(book, LogRequest.of("log.xlsx", SCALE)).recording();
            assertThat(recording.timeS().toArray())
                    .containsExactly(new double[] {86_398, 86_399, 86_400, 86_401}, within(1e-5));
        }
    }

    @Test
    void textsOfAWorkbookHaveTheDecimalSignOfTheDialect() throws IOException {
        Path book = folder.resolve("log.xlsx");
        try (OutputStream out = Files.newOutputStream(book);
                Workbook workbook = new Workbook(out, "test", "1.0")) {
            Worksheet sheet = workbook.newWorksheet("log");
            String[][] rows = {
                {"time_s", "count", "reference_mm"}, {"0", "0", "10,25"}, {"0,5", "1", "11,5"}, {"1,25", "-2", "-12"}
            };
            for (int row = 0; row < rows.length; row++) {
                for (int k = 0; k < 3; k++) {
                    sheet.value(row, k, rows[row][k]);
                }
            }
            // among texts a number is still a number
            sheet.value(2, 0, 0.5);
        }
        LogRequest request = LogRequest.of("log.xlsx", SCALE);
        Dialect comma = new Dialect(null, ',', null, null, null);
        assertThreeRows(LogReader.read(book, request.with(comma)).recording());
        assertThat(LogBegin.of(book, request.with(comma)).firstRows().get(1)).containsExactly(0.5, 1.0, 11.5);
        assertThatThrownBy(() -> LogReader.read(book, request)).isInstanceOf(BadInputException.class);
    }

    @Test
    void archiveThatIsNoWorkbookIsRefused() throws IOException {
        Path file = Files.write(folder.resolve("log.xlsx"), new byte[] {'P', 'K', 3, 4, 1, 2, 3});
        assertThatThrownBy(() -> LogReader.read(file, LogRequest.of("log.xlsx", SCALE)))
                .isInstanceOfSatisfying(
                        BadInputException.class,
                        refused -> assertThat(refused.problems().get(0).code()).isEqualTo(ProblemCode.LOG_FOREIGN));
    }

    @Test
    void quotesThatDoNotMatchAreToldNotThrown() throws IOException {
        List<InputProblem> problems = problems("time_s,count,reference_mm\n0,0,1\n1,\"1,2\n2,3,4\n");
        assertThat(problems).isNotEmpty();
    }

    @Test
    void whoWatchesIsToldHowFarAnyLogIsRead() throws IOException {
        StringBuilder text = new StringBuilder("time_s,count,reference_mm\n");
        for (int i = 0; text.length() < 9 << 20; i++) {
            text.append(i / 1000.0)
                    .append(',')
                    .append(i)
                    .append(',')
                    .append(i / 20.0)
                    .append('\n');
        }
        byte[] plain = text.toString().getBytes(StandardCharsets.US_ASCII);
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(packed)) {
            gzip.write(plain);
        }
        byte[] thorough = text.append("9e9,1,2\n").toString().getBytes(StandardCharsets.UTF_16);
        for (byte[] bytes : List.of(plain, packed.toByteArray(), thorough)) {
            Path log = Files.write(folder.resolve("watched.csv"), bytes);
            List<Long> told = new ArrayList<>();
            LogReader.read(log, LogRequest.of("the log", SCALE), CacheFolder.NONE, (file, done, size) -> {
                assertThat(file).isEqualTo("the log");
                assertThat(size).isEqualTo(bytes.length);
                synchronized (told) {
                    told.add(done);
                }
            });
            assertThat(told).isSorted().hasSizeGreaterThan(9);
            assertThat(told.get(told.size() - 1)).isEqualTo(bytes.length);
        }
    }
}
