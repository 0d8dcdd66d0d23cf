package slowproof.files.in;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Flag;
import slowproof.trial.input.BadInputException;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.wording.Wording;

/** What a person reads when the input is wrong: what was found, where, what was expected, how to mend it. */
class BadInputTest {
    private static final String HEADER = "series,material,speed_mm_s,acceleration_mm_s2,reference_mm,reading_mm\n";
    private static final String ROWS = """
            s,felt,,,0,0.0
            s,felt,50,500,600,600.3
            s,felt,50,500,0,0.1
            s,felt,50,500,600,600.4
            """;
    private static final String TRIAL = """
            trial: "t"
            sensor: {reading_resolution_mm: 0.1}
            reference: {expanded_uncertainty_mm: 0.02}
            limit: {relative_pct: 0.1}
            readings: readings.csv
            """;

    @TempDir
    Path folder;

    private Path files(String trial, byte[] readings) throws IOException {
        Files.write(folder.resolve("readings.csv"), readings);
        return Files.writeString(folder.resolve("trial.yaml"), trial);
    }

    private String message(String trial, byte[] readings) throws IOException {
        Path file = files(trial, readings);
        try {
            TrialReader.read(file);
        } catch (BadInputException e) {
            return Wording.of(Locale.ENGLISH).problems(e.problems());
        }
        throw new AssertionError("went through");
    }

    private String message(String readings) throws IOException {
        return message(TRIAL, readings.getBytes(StandardCharsets.UTF_8));
    }

    private String trialMessage(String trial) throws IOException {
        return message(trial, (HEADER + ROWS).getBytes(StandardCharsets.UTF_8));
    }

    private Findings findings(String trial, byte[] readings) throws IOException {
        return Evaluation.of(TrialReader.read(files(trial, readings)).trial());
    }

    private Findings plain() throws IOException {
        return findings(TRIAL, (HEADER + ROWS).getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void anEmptyFileIsRefused() throws IOException {
        assertThat(message("")).contains("readings.csv").contains("empty");
        assertThat(message("\n\n")).contains("empty");
    }

    @Test
    void aHeaderAloneIsRefused() throws IOException {
        assertThat(message(HEADER)).contains("readings.csv, line 1").contains("no rows");
    }

    @Test
    void aMissingColumnIsNamedWithTheHeadingsThatAreThere() throws IOException {
        assertThat(message((HEADER + ROWS).replace("reading_mm", "shown")))
                .contains("\"reading_mm\" is missing")
                .contains("reference_mm, shown");
    }

    @Test
    void anUnknownUnitIsNamedWithTheKnownOnes() throws IOException {
        assertThat(message((HEADER + ROWS).replace("reading_mm", "reading_yd")))
                .contains("line 1, column 6")
                .contains("_mm _cm _m _in _ft");
        assertThat(message((HEADER + ROWS).replace("reading_mm", "reading"))).contains("no known unit");
    }

    @Test
    void textInANumberHasItsPlace() throws IOException {
        assertThat(message((HEADER + ROWS).replace("600.3", "6oo.3")))
                .contains("readings.csv, line 3, column 6 (reading_mm)")
                .contains("\"6oo.3\" is not a number");
    }

    @Test
    void notANumberAndInfinityAreRefused() throws IOException {
        assertThat(message((HEADER + ROWS).replace("600.3", "NaN")))
                .contains("line 3")
                .contains("not a finite number");
        assertThat(message((HEADER + ROWS).replace("600.3", "-inf"))).contains("not a finite number");
        assertThat(message((HEADER + ROWS).replace("600.3", "1e999"))).contains("not a finite number");
    }

    @Test
    void allProblemsOfAFileComeAtOnce() throws IOException {
        String text = message(
                (HEADER + ROWS).replace("600.3", "x").replace("600.4", "y").replace("0.1", "z"));
        assertThat(text).contains("line 3").contains("line 4").contains("line 5");
    }

    @Test
    void theFirstTwentyProblemsAreToldAndTheRestCounted() throws IOException {
        StringBuilder rows = new StringBuilder(HEADER + "s,felt,,,0,0.0\n");
        for (int i = 0; i < 30; i++) {
            rows.append("s,felt,50,500,").append(i % 2 == 0 ? 600 : 0).append(",bad\n");
        }
        String text = message(rows.toString());
        assertThat(text).contains("line 22,").doesNotContain("line 23,").contains("and 10 more");
    }

    @Test
    void aDecimalCommaAmongCommasIsExplained() throws IOException {
        assertThat(message((HEADER + ROWS).replace("600.3", "600,3")))
                .contains("line 3")
                .contains("decimal comma");
    }

    private static String quotedCommas(String rows) {
        return rows.replaceAll("(?<=,)(-?\\d+)\\.(\\d+)(?=[,\n])", "\"$1,$2\"");
    }

    @Test
    void decimalCommasInQuotesAmongCommasAreTakenWhereOneCannotSeparateThousands() throws IOException {
        String quoted = quotedCommas(HEADER + ROWS);
        assertThat(quoted).contains(",\"600,3\"").doesNotContain("600.3");
        assertThat(findings(TRIAL, quoted.getBytes(StandardCharsets.UTF_8)).conditions())
                .isEqualTo(plain().conditions());
        // one point tells that commas are none, and a number without its quotes has a cell too many
        assertThat(message(quoted.replace("\"600,3\"", "600.3")))
                .contains("the decimal sign here is \".\"")
                .contains("line 4")
                .doesNotContain("line 3,");
        assertThat(message(quoted.replace("\"600,3\"", "600,3")))
                .contains("line 3")
                .contains("decimal comma");
    }

    @Test
    void namesAndCommentsDoNotTellTheDecimalSign() throws IOException {
        String quoted = quotedCommas(HEADER + ROWS).replace("s,felt", "1.2,felt");
        assertThat(findings(TRIAL, quoted.getBytes(StandardCharsets.UTF_8)).conditions())
                .hasSameSizeAs(plain().conditions());
        String thousands = HEADER.replace("\n", ",comment\n")
                + "s,felt,,,0,0,\"0,5\"\ns,felt,50,500,\"1,600\",\"1,601\",\ns,felt,50,500,0,1,\n";
        assertThat(message(thousands)).contains("\"1,600\"").contains("without thousands separators");
    }

    @Test
    void commasInQuotesThatMaySeparateThousandsAreRefused() throws IOException {
        String thousands = HEADER + "s,felt,,,0,0\ns,felt,50,500,\"1,600\",\"1,601\"\ns,felt,50,500,0,1\n";
        assertThat(message(thousands)).contains("\"1,600\"").contains("without thousands separators");
        assertThat(message(thousands.replace("0,1\n", "0,\"1,5\"\n").replace("\"1,601\"", "\"1,601,000\"")))
                .contains("without thousands separators");
    }

    @Test
    void semicolonsTabsMarksAndLineEndsMakeNoDifference() throws IOException {
        Findings plain = plain();
        String text = HEADER + ROWS;
        byte[] semicolons = text.replace(',', ';').replace('.', ',').getBytes(StandardCharsets.UTF_8);
        byte[] tabs = text.replace(',', '\t').getBytes(StandardCharsets.UTF_8);
        byte[] windows = ("\ufeff" + text.replace("\n", "\r\n")).getBytes(StandardCharsets.UTF_8);
        byte[] utf16 = ("\ufeff" + text).getBytes(StandardCharsets.UTF_16LE);
        byte[] utf16BigEnd = ("\ufeff" + text).getBytes(StandardCharsets.UTF_16BE);
        for (byte[] form : new byte[][] {semicolons, tabs, windows, utf16, utf16BigEnd}) {
            assertThat(findings(TRIAL, form).conditions()).isEqualTo(plain.conditions());
        }
    }

    @Test
    void bytesThatAreNoTextOfTheEncodingHaveTheirLine() throws IOException {
        byte[] latin = (HEADER + ROWS.replace("felt", "Filz grün")).getBytes(StandardCharsets.ISO_8859_1);
        assertThat(message(TRIAL, latin)).contains("line 2").contains("UTF-8");
    }

    @Test
    void otherUnitsGiveTheSameFindings() throws IOException {
        String text = """
                series,material,speed_m_min,acceleration_m_s2,reference_cm,reading_m
                s,felt,,,0,0.0000
                s,felt,3,0.5,60,0.6003
                s,felt,3,0.5,0,0.0001
                s,felt,3,0.5,60,0.6004
                """;
        Condition there = findings(TRIAL, text.getBytes(StandardCharsets.UTF_8))
                .conditions()
                .get(0);
        Condition here = plain().conditions().get(0);
        assertThat(there).isEqualTo(here);
    }

    @Test
    void aNegativeOrZeroSpeedIsRefused() throws IOException {
        assertThat(message((HEADER + ROWS).replace("felt,50", "felt,0")))
                .contains("(speed_mm_s)")
                .contains("not above zero");
        assertThat(message((HEADER + ROWS).replace("felt,50", "felt,-50"))).contains("\"-50\" is not above zero");
    }

    @Test
    void aReferenceThatDidNotMoveIsRefused() throws IOException {
        assertThat(message((HEADER + ROWS).replace("500,0,0.1", "500,600,0.1")))
                .contains("line 4")
                .contains("nothing moved");
    }

    @Test
    void twoSpeedsInOneSeriesAreRefused() throws IOException {
        assertThat(message((HEADER + ROWS).replace("s,felt,50,500,600,600.4", "s,felt,60,500,600,600.4")))
                .contains("line 5")
                .contains("series of their own");
    }

    @Test
    void aSeriesOfOneRowIsRefused() throws IOException {
        assertThat(message(HEADER + "s,felt,50,500,600,600.3\n")).contains("one row");
    }

    @Test
    void onePassIsEvaluatedAndSaysWhatItCannotSay() throws IOException {
        Findings findings = findings(
                TRIAL, (HEADER + "s,felt,,,0,0.0\ns,felt,50,500,600,600.3\n").getBytes(StandardCharsets.UTF_8));
        assertThat(findings.conditions().get(0).repeatability()).isNull();
        assertThat(findings.notes()).extracting(Note::code).contains(NoteCode.FEWER_THAN_TWO_PASSES);
    }

    @Test
    void equalReadingsAreNotPerfect() throws IOException {
        String rows = HEADER + ROWS.replace("600.4", "600.3").replace("500,0,0.1", "500,0,0.0");
        Findings findings = findings(TRIAL, rows.getBytes(StandardCharsets.UTF_8));
        assertThat(findings.conditions().get(0).flags()).contains(Flag.SCATTER_BELOW_RESOLUTION);
        assertThat(findings.conditions().get(0).standardUncertainty()).isGreaterThan(0);
    }

    @Test
    void readingsInAnotherUnitAreQuestioned() throws IOException {
        String inches = HEADER + "s,felt,,,0,0.00\ns,felt,50,500,600,23.63\ns,felt,50,500,0,0.00\n";
        assertThat(message(inches)).contains("different units").contains("question_scale");
        String centimetres =
                HEADER + "s,felt,,,0,0.00\ns,felt,50,500,600,60.03\ns,felt,50,500,0,0.01\ns,felt,50,500,600,60.04\n";
        assertThat(message(centimetres)).contains("different units");
    }

    @Test
    void aCountThatRunsBackwardsIsQuestioned() throws IOException {
        assertThat(message(HEADER + "s,felt,,,0,0.0\ns,felt,50,500,600,-600.3\ns,felt,50,500,0,-0.1\n"))
                .contains("count backwards");
    }

    @Test
    void aCounterThatStartedAgainIsQuestioned() throws IOException {
        String trial = TRIAL.replace("{reading_resolution_mm: 0.1}", "{distance_per_count_mm: 0.05, counter_bits: 16}");
        String rows = HEADER + "s,felt,,,0,3000.00\ns,felt,50,500,600,323.50\ns,felt,50,500,0,-276.80\n";
        assertThat(message(trial, rows.getBytes(StandardCharsets.UTF_8)))
                .contains("start again")
                .contains("3276.8");
    }

    @Test
    void aSensorThatFailsGrosslyIsAQuestionAndNotACorrection() throws IOException {
        assertThat(message((HEADER + ROWS).replace("600.3", "250.0"))).contains("question_slope");
    }

    @Test
    void aLimitOfZeroIsRefused() throws IOException {
        assertThat(trialMessage(TRIAL.replace("relative_pct: 0.1", "relative_pct: 0")))
                .contains("limit of zero");
    }

    @Test
    void anUnknownKeyIsRefusedWithTheNearestKnownOne() throws IOException {
        assertThat(trialMessage(TRIAL.replace("limit:", "limits:")))
                .contains("trial.yaml, line 4, column 1")
                .contains("\"limits\"")
                .contains("\"limit\"");
        assertThat(trialMessage(TRIAL.replace("expanded_uncertainty_mm", "expanded_uncertainty_um")))
                .contains("\"expanded_uncertainty_mm\"");
    }

    @Test
    void aDecimalCommaInTheTrialFileIsExplained() throws IOException {
        assertThat(trialMessage(TRIAL.replace("relative_pct: 0.1", "relative_pct: 0,1")))
                .contains("line 4")
                .contains("decimal sign");
        assertThat(trialMessage(TRIAL.replace("{relative_pct: 0.1}", "\n  relative_pct: 0,1")))
                .contains("decimal sign");
    }

    @Test
    void wrongKindsAndChoicesAreRefused() throws IOException {
        assertThat(trialMessage(TRIAL.replace("{relative_pct: 0.1}", "0.1")))
                .contains("line 4")
                .contains("key: value");
        assertThat(trialMessage(TRIAL + "decision_rule: generous\n")).contains("probability, expanded, simple");
        assertThat(trialMessage(TRIAL + "limit: {relative_pct: 1}\n")).contains("twice");
        assertThat(trialMessage("trial: [")).contains("trial.yaml").contains("YAML");
        assertThat(trialMessage("just words")).contains("key: value");
    }

    @Test
    void aTrialWithoutDataOrWithAMissingFileIsRefused() throws IOException {
        assertThat(trialMessage(TRIAL.replace("readings: readings.csv\n", ""))).contains("names no data");
        assertThat(trialMessage(TRIAL.replace("readings: readings.csv", "readings: gone.csv")))
                .contains("gone.csv")
                .contains("no file");
    }

    @Test
    void anExclusionOfNoPassIsRefusedWithTheFormOfNames() throws IOException {
        Path file = files(
                TRIAL + "exclude:\n  - {pass: \"s/9\", reason: \"cable caught\"}\n",
                (HEADER + ROWS).getBytes(StandardCharsets.UTF_8));
        try {
            Evaluation.of(TrialReader.read(file).trial());
        } catch (BadInputException e) {
            assertThat(Wording.of(Locale.ENGLISH).problems(e.problems()))
                    .contains("line 7")
                    .contains("\"s/9\"")
                    .contains("s/1");
            return;
        }
        throw new AssertionError("went through");
    }

    @Test
    void timesThatGoBackAreRemarkedAndTheRowsKeepTheirOrder() throws IOException {
        String rows = """
                series,material,speed_mm_s,reference_mm,reading_mm,time
                s,felt,,0,0.0,2026-03-31T14:00:00
                s,felt,50,600,600.3,2026-03-31T14:02:00
                s,felt,50,0,0.1,2026-03-31T14:01:00
                """;
        assertThat(findings(TRIAL, rows.getBytes(StandardCharsets.UTF_8)).notes())
                .extracting(Note::code)
                .contains(NoteCode.TIME_BACKWARDS);
        assertThat(message(rows.replace("2026-03-31T14:02:00", "half past two")))
                .contains("is not a time")
                .contains("ISO 8601");
    }

    @Test
    void rawFilesAreOnlyRead() throws IOException {
        Path file = files(TRIAL, (HEADER + ROWS).getBytes(StandardCharsets.UTF_8));
        LoadedTrial loaded = TrialReader.read(file);
        assertThat(Files.readString(folder.resolve("readings.csv"))).isEqualTo(HEADER + ROWS);
        assertThat(loaded.sources()).extracting(SourceFile::sha256).allMatch(hash -> hash.matches("[0-9a-f]{64}"));
        // the fingerprint of "abc" is the published example of FIPS 180-4
        assertThat(RawFile.sha256("abc".getBytes(StandardCharsets.UTF_8)))
                .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }
}
