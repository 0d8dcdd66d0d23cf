package slowproof.files.in;

import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.files.in.Table.Row;
import slowproof.trial.Series;
import slowproof.trial.Standstill;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;

/** Reads typed readings: one row per standstill, cumulative positions of the reference, grouped by series. */
final class ReadingsFile {
    /** What is known of a series while its rows come in. */
    private static final class Growing {
        final SourcePosition start;
        final String material;
        final String setup;
        final List<Standstill> rows = new ArrayList<>();

        @Nullable
        Double speed;

        @Nullable
        Double acceleration;

        boolean accelerationSeen;

        Growing(SourcePosition start, String material, String setup) {
            this.start = start;
            this.material = material;
            this.setup = setup;
        }
    }

    private final Table table;
    private final Columns columns;
    private final Problems problems;
    private final @Nullable Double circumferenceMm;
    private final boolean turns;
    private boolean rowsLost;
    private final Map<String, Growing> series = new LinkedHashMap<>();

    private ReadingsFile(Table table, Problems problems, @Nullable Double circumferenceMm) {
        this.table = table;
        this.problems = problems;
        this.circumferenceMm = circumferenceMm;
        this.columns = new Columns(table, problems)
                .required("series", Heading.Kind.TEXT)
                .required("material", Heading.Kind.TEXT)
                .required("speed", Heading.Kind.SPEED)
                .required("reading", Heading.Kind.LENGTH)
                .optional("acceleration", Heading.Kind.ACCELERATION)
                .optional("dropout", Heading.Kind.SHARE)
                .optional("indicated_speed", Heading.Kind.SPEED)
                .optional("reference_speed", Heading.Kind.SPEED)
                .optional("time", Heading.Kind.TEXT)
                .optional("track", Heading.Kind.TEXT)
                .optional("setup", Heading.Kind.TEXT)
                .optional("comment", Heading.Kind.TEXT);
        this.turns = circumferenceMm != null
                && table.headings().stream().anyMatch(h -> Heading.normal(h).equals("reference_turns"));
        columns.required("reference", turns ? Heading.Kind.TURNS : Heading.Kind.LENGTH);
    }

    /**
     * Reads the series of a file.
     *
     * @param raw the file
     * @param problems where to note problems
     * @param notes where to note how the file was read
     * @param circumferenceMm circumference of a reference roll in mm, for a column of turns; or null
     */
    static List<Series> read(RawFile raw, Problems problems, List<Note> notes, @Nullable Double circumferenceMm) {
        Table table = Table.read(raw, problems);
        int before = problems.count();
        ReadingsFile file = new ReadingsFile(table, problems, circumferenceMm);
        noteDialect(table, file.columns, notes);
        if (problems.count() > before) {
            return List.of();
        }
        table.rows().forEach(file::take);
        return file.finish();
    }

    static void noteDialect(Table table, Columns columns, List<Note> notes) {
        if (table.decimalSign() == ',') {
            notes.add(Note.of(NoteCode.DECIMAL_COMMA_READ, table.file()));
        }
        List<String> unused = columns.unused();
        if (!unused.isEmpty()) {
            notes.add(Note.of(NoteCode.COLUMNS_IGNORED, table.file(), String.join(", ", unused)));
        }
    }

    private void take(Row row) {
        if (row.cells().size() != table.headings().size()) {
            rowsLost = true;
            return;
        }
        String name = columns.text(row, "series");
        String material = columns.text(row, "material");
        if (name.isEmpty()) {
            problems.add(ProblemCode.VALUE_MISSING, columns.at(row, "series"));
        }
        Growing own = series.get(name);
        if (own == null) {
            if (material.isEmpty()) {
                problems.add(ProblemCode.VALUE_MISSING, columns.at(row, "material"));
            }
            own = new Growing(columns.at(row, "series"), material, columns.text(row, "setup"));
            series.put(name, own);
        } else {
            takeMove(own, row, name);
        }
        Double position = columns.requiredNumber(row, "reference");
        Double reading = columns.requiredNumber(row, "reading");
        if (position == null || reading == null) {
            rowsLost = true;
            return;
        }
        own.rows.add(new Standstill(
                turns ? position * Objects.requireNonNull(circumferenceMm) : position,
                reading,
                turns ? 9 : Math.max(columns.decimals(row, "reference"), columns.decimals(row, "reading")),
                columns.percent(row, "dropout"),
                time(row),
                columns.positive(row, "indicated_speed"),
                columns.positive(row, "reference_speed"),
                columns.text(row, "track"),
                columns.at(row, "reading")));
    }

    private void takeMove(Growing own, Row row, String name) {
        same(own.material, columns.text(row, "material"), columns.at(row, "material"), name);
        same(own.setup, columns.text(row, "setup"), columns.at(row, "setup"), name);
        if (own.speed == null && columns.text(row, "speed").isEmpty()) {
            problems.add(ProblemCode.VALUE_MISSING, columns.at(row, "speed"));
        }
        Double speed = columns.positive(row, "speed");
        if (speed != null) {
            if (own.speed == null) {
                own.speed = speed;
            } else if (!own.speed.equals(speed)) {
                problems.add(ProblemCode.SERIES_MIXED, columns.at(row, "speed"), columns.text(row, "speed"), name);
            }
        }
        Double acceleration = columns.positive(row, "acceleration");
        if (!own.accelerationSeen) {
            own.acceleration = acceleration;
            own.accelerationSeen = true;
        } else if (!Objects.equals(own.acceleration, acceleration)
                && !columns.text(row, "acceleration").isEmpty()) {
            problems.add(
                    ProblemCode.SERIES_MIXED, columns.at(row, "acceleration"), columns.text(row, "acceleration"), name);
        }
    }

    private void same(String first, String here, SourcePosition at, String name) {
        if (!here.isEmpty() && !here.equals(first)) {
            problems.add(ProblemCode.SERIES_MIXED, at, here, name);
        }
    }

    private @Nullable LocalDateTime time(Row row) {
        String text = columns.text(row, "time");
        if (text.isEmpty()) {
            return null;
        }
        String iso = text.replace(' ', 'T');
        try {
            boolean zoned = iso.endsWith("Z") || iso.lastIndexOf('+') > 10 || iso.lastIndexOf('-') > 10;
            return zoned ? OffsetDateTime.parse(iso).toLocalDateTime() : LocalDateTime.parse(iso);
        } catch (DateTimeParseException e) {
            problems.add(ProblemCode.BAD_TIME, columns.at(row, "time"), text);
            return null;
        }
    }

    private List<Series> finish() {
        List<Series> all = new ArrayList<>();
        series.forEach((name, own) -> {
            if (own.rows.size() < 2 && !rowsLost) {
                problems.add(ProblemCode.SERIES_TOO_SHORT, own.start, name);
            } else if (own.speed != null && own.rows.size() > 1) {
                if (!rowsLost) {
                    refuseStandingReference(own);
                }
                all.add(new Series(name, own.material, own.setup, own.speed, own.acceleration, own.rows));
            }
        });
        return all;
    }

    private void refuseStandingReference(Growing own) {
        for (int i = 1; i < own.rows.size(); i++) {
            Standstill row = own.rows.get(i);
            if (row.referenceMm() == own.rows.get(i - 1).referenceMm()) {
                SourcePosition at = row.at();
                problems.add(
                        ProblemCode.ZERO_STROKE,
                        new SourcePosition(at.file(), at.line(), 0, "reference"),
                        Quantity.mm(row.referenceMm()));
            }
        }
    }
}
