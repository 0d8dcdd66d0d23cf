package slowproof.files.log;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;

/** The columns of a log that are left alone, so that a person can see that none of them was meant. */
final class LeftColumns {
    private LeftColumns() {}

    /**
     * Returns the headings of the columns that are left alone, or their numbers where there are no headings. An empty
     * column without a heading, as a separator at the end of the lines makes one, is none.
     */
    static List<String> headings(Layout layout, List<Target> targets) {
        return left(layout, targets).mapToObj(i -> shown(layout, i)).toList();
    }

    /**
     * Returns what is said of them: which they are, and each that could have been taken as well as one that was.
     *
     * @param request what was wanted; with a mapping in it nothing was open
     */
    static List<Note> notes(Layout layout, LogRequest request, List<Target> targets) {
        List<Note> notes = new ArrayList<>();
        List<String> headings = headings(layout, targets);
        if (!headings.isEmpty()) {
            notes.add(Note.of(NoteCode.COLUMNS_IGNORED, request.name(), String.join(", ", headings)));
        }
        if (request.columns().columns().isEmpty()) {
            for (Target target : targets) {
                left(layout, targets)
                        .filter(i -> ColumnFinder.couldBe(target.role(), layout, request, i))
                        .mapToObj(i -> Note.of(
                                NoteCode.LOG_COLUMN_OTHER,
                                request.name(),
                                target.role().key(),
                                target.heading().strip(),
                                shown(layout, i)))
                        .forEach(notes::add);
            }
        }
        return List.copyOf(notes);
    }

    private static IntStream left(Layout layout, List<Target> targets) {
        List<Integer> taken = targets.stream().map(Target::index).toList();
        return IntStream.range(0, layout.cells())
                .filter(i -> !taken.contains(i))
                .filter(i -> !layout.headings().get(i).isBlank()
                        || !layout.firstCells().get(i).isBlank());
    }

    private static String shown(Layout layout, int index) {
        String heading = layout.headings().get(index);
        return heading.isBlank() ? String.valueOf(index + 1) : Cells.shown(heading.strip());
    }
}
