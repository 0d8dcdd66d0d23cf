package slowproof.files.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.recording.SensorScale;
import slowproof.wording.Wording;

/** What is said of columns that a log has and nobody reads. */
class LeftColumnsTest {
    @TempDir
    Path folder;

    private List<Note> notes(String text, ColumnMapping mapping) throws IOException {
        Path path = Files.writeString(folder.resolve("log.csv"), text);
        return LogReader.read(
                        path,
                        LogRequest.of("log.csv", SensorScale.ofCounts(0.05)).with(mapping))
                .notes();
    }

    private List<Note> notes(String text) throws IOException {
        return notes(text, ColumnMapping.RECOGNISED);
    }

    private static List<Object> ignored(List<Note> notes) {
        return notes.stream()
                .filter(note -> note.code() == NoteCode.COLUMNS_IGNORED)
                .flatMap(note -> note.arguments().stream())
                .toList();
    }

    private static List<List<Object>> others(List<Note> notes) {
        return notes.stream()
                .filter(note -> note.code() == NoteCode.LOG_COLUMN_OTHER)
                .map(Note::arguments)
                .toList();
    }

    @Test
    void columnsThatNobodyReadsAreNamed() throws IOException {
        List<Note> notes = notes("time_s,count,reference_mm,invalid\n0,0,0,0\n1,1,0.05,0\n");
        assertThat(ignored(notes)).containsExactly("invalid");
        assertThat(others(notes)).isEmpty();
        assertThat(notes).allMatch(note -> note.where().equals("log.csv"));
    }

    @Test
    void withoutHeadingsTheyAreNumbered() throws IOException {
        ColumnMapping mapping = new ColumnMapping(Map.of(
                ColumnRole.TIME, ColumnSource.number(2).in("s"),
                ColumnRole.COUNT, ColumnSource.number(3),
                ColumnRole.REFERENCE, ColumnSource.number(5).in("mm")));
        assertThat(ignored(notes("7,0,0,5,0\n7,1,1,5,0.05\n", mapping))).containsExactly("1, 4");
        assertThat(ignored(notes("7,0,0,5,0,\n7,1,1,5,0.05,\n", mapping))).containsExactly("1, 4");
    }

    @Test
    void nothingIsSaidWhereNothingIsLeft() throws IOException {
        assertThat(ignored(notes("time_s,count,reference_mm\n0,0,0\n1,1,0.05\n")))
                .isEmpty();
        assertThat(ignored(notes("time_s;count;reference_mm;\n0;0;0;\n1;1;0.05;\n")))
                .isEmpty();
    }

    @Test
    void aColumnThatCouldBeTakenAsWellIsNamedWithTheWayToChooseIt() throws IOException {
        List<Note> notes = notes("time_s,count,position_mm,axis_mm\n0,0,0,0\n1,1,0.05,0.05\n");
        assertThat(ignored(notes)).containsExactly("axis_mm");
        assertThat(others(notes)).containsExactly(List.of("reference", "position_mm", "axis_mm"));
        assertThat(Wording.of(Locale.ENGLISH).note(notes.get(notes.size() - 1))).contains("reference: \"axis_mm\"");
        assertThat(others(notes("time_s,count,counter,reference_mm\n0,0,0,0\n1,1,1,0.05\n")))
                .containsExactly(List.of("count", "count", "counter"));
        assertThat(others(notes("timestamp,time_s,count,reference_mm\n06:00:00,0,0,0\n06:00:01,1,1,0.05\n")))
                .containsExactly(List.of("time", "time_s", "timestamp"));
    }

    @Test
    void anotherQuantityOrAChoiceOfTheTrialIsNoOther() throws IOException {
        assertThat(others(notes("time_s,count,reference_mm,reference_speed_mm_s,position_setpoint,axis\n"
                        + "0,0,0,0,0,1\n1,1,0.05,0,0,1\n")))
                .isEmpty();
        ColumnMapping mapping = new ColumnMapping(Map.of(
                ColumnRole.TIME, ColumnSource.heading("time_s"),
                ColumnRole.COUNT, ColumnSource.heading("count"),
                ColumnRole.REFERENCE, ColumnSource.heading("axis_mm")));
        assertThat(others(notes("time_s,count,position_mm,axis_mm\n0,0,0,0\n1,1,0.05,0.05\n", mapping)))
                .isEmpty();
    }
}
