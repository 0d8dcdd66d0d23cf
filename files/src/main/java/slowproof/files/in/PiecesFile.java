package slowproof.files.in;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import slowproof.files.in.Table.Row;
import slowproof.trial.Piece;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.note.Note;

/** Reads cut pieces or taped lengths: one row each, not cumulative. */
final class PiecesFile {
    private PiecesFile() {}

    /**
     * Reads the pieces of a file.
     *
     * @param raw the file
     * @param problems where to note problems
     * @param notes where to note how the file was read
     */
    static List<Piece> read(RawFile raw, Problems problems, List<Note> notes) {
        Table table = Table.read(raw, problems);
        int before = problems.count();
        Columns columns = new Columns(table, problems)
                .required("piece", Heading.Kind.TEXT)
                .required("material", Heading.Kind.TEXT)
                .required("speed", Heading.Kind.SPEED)
                .required("reference", Heading.Kind.LENGTH)
                .required("reading", Heading.Kind.LENGTH)
                .optional("dropout", Heading.Kind.SHARE)
                .optional("comment", Heading.Kind.TEXT);
        ReadingsFile.noteDialect(table, columns, notes);
        if (problems.count() > before) {
            return List.of();
        }
        List<Piece> pieces = new ArrayList<>();
        Set<String> names = new HashSet<>();
        for (Row row : table.rows()) {
            if (row.cells().size() == table.headings().size()) {
                take(row, columns, problems, names, pieces);
            }
        }
        return pieces;
    }

    private static void take(Row row, Columns columns, Problems problems, Set<String> names, List<Piece> pieces) {
        String name = columns.text(row, "piece");
        String material = columns.text(row, "material");
        if (name.isEmpty()) {
            problems.add(ProblemCode.VALUE_MISSING, columns.at(row, "piece"));
        } else if (!names.add(name)) {
            problems.add(ProblemCode.PIECE_TWICE, columns.at(row, "piece"), name);
        }
        if (material.isEmpty()) {
            problems.add(ProblemCode.VALUE_MISSING, columns.at(row, "material"));
        }
        if (columns.text(row, "speed").isEmpty()) {
            problems.add(ProblemCode.VALUE_MISSING, columns.at(row, "speed"));
        }
        Double speed = columns.positive(row, "speed");
        Double reference = columns.requiredNumber(row, "reference");
        Double reading = columns.requiredNumber(row, "reading");
        Double dropout = columns.percent(row, "dropout");
        if (reference != null && reference == 0) {
            problems.add(ProblemCode.NOT_POSITIVE, columns.at(row, "reference"), columns.text(row, "reference"));
        } else if (speed != null && reference != null && reading != null) {
            int decimals = Math.max(columns.decimals(row, "reference"), columns.decimals(row, "reading"));
            pieces.add(new Piece(
                    name, material, speed, reference, reading, decimals, dropout, columns.at(row, "reading")));
        }
    }
}
