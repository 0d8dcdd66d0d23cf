package slowproof.app.web;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import slowproof.files.log.ColumnRole;
import slowproof.files.log.LogBegin;
import slowproof.files.log.ReadAs;
import slowproof.wording.Numbers;
import slowproof.wording.Wording;

/**
 * How logs that were sent are read, as a form with what it leads to.
 *
 * @param id name of the sending
 * @param sections one a log
 * @param form what stands in the fields
 */
public record UploadReading(String id, List<Section> sections, UploadForm form) {
    /** Copies the list. */
    public UploadReading {
        sections = List.copyOf(sections);
    }

    /**
     * One log.
     *
     * @param number its number in the sending
     * @param name its name
     * @param size its size, with a unit
     * @param begin how its beginning is understood
     * @param columns its columns
     * @param problems what is wrong, with line and column
     * @param others logs whose reference it can be: number and name
     */
    public record Section(
            int number,
            String name,
            String size,
            LogBegin begin,
            List<Column> columns,
            List<String> problems,
            Map<Integer, String> others) {
        /** Copies the lists. */
        public Section {
            columns = List.copyOf(columns);
            problems = List.copyOf(problems);
            others = Map.copyOf(others);
        }

        /** Returns the name of a field of this log. */
        public String field(String what) {
            return "f" + number + "_" + what;
        }

        /** Returns the sign between cells as a word of the choices, or as itself. */
        public String separator() {
            return UploadForm.SEPARATORS.entrySet().stream()
                    .filter(entry -> entry.getValue() == begin.separator())
                    .map(Map.Entry::getKey)
                    .findFirst()
                    .orElse("");
        }

        /** Returns true when a column is an angle, so that the circumference of its roll is needed. */
        public boolean asksCircumference() {
            return columns.stream().anyMatch(Column::isAngle);
        }

        /** Returns true when a column is a signal level, so that its threshold is needed. */
        public boolean asksThreshold() {
            return columns.stream().anyMatch(column -> column.role().equals("level"));
        }
    }

    /**
     * A column of a log.
     *
     * @param field name of the field that says what it is
     * @param number its number from 1
     * @param heading its heading, empty for none
     * @param written its first cells as written
     * @param role what it is, as a key; empty when it is left alone
     * @param units units that it can have
     * @param unit unit that was chosen, or that the heading says; empty for none
     * @param understood its first values as understood, with their units
     */
    public record Column(
            String field,
            int number,
            String heading,
            List<String> written,
            String role,
            List<String> units,
            String unit,
            List<String> understood) {
        /** Copies the lists. */
        public Column {
            written = List.copyOf(written);
            units = List.copyOf(units);
            understood = List.copyOf(understood);
        }

        boolean isAngle() {
            return unit.equals("deg") || unit.equals("rad") || unit.equals("turns");
        }
    }

    /** Returns the keys of everything that a column can be. */
    public List<String> roles() {
        return List.of("time", "count", "reading", "channel_a", "channel_b", "reference", "dropout", "valid", "level");
    }

    /** Returns what stands in a field. */
    public String text(String field) {
        return form.text(field);
    }

    /** Returns the words for signs between cells. */
    public List<String> separators() {
        return List.copyOf(UploadForm.SEPARATORS.keySet());
    }

    /** Returns the encodings to choose from. */
    public List<String> encodings() {
        return UploadForm.ENCODINGS;
    }

    /** Returns the ways to count edges. */
    public List<String> evaluations() {
        return UploadForm.EVALUATIONS;
    }

    /** Returns the widths of a counter in bits. */
    public List<String> bits() {
        return UploadForm.BITS;
    }

    /** Returns the first thing that is wrong with each log, at its heading; none when every log can be read. */
    List<Problem> obstacles() {
        return sections.stream()
                .filter(section -> !section.problems().isEmpty())
                .map(section -> new Problem(
                        "log-" + section.number(), section.problems().get(0)))
                .toList();
    }

    static UploadReading of(String id, UploadForm form, Wording wording) {
        List<Section> sections = new ArrayList<>();
        for (UploadStore.Log log : form.logs()) {
            LogBegin begin = LogBegin.of(log.path(), form.request(log));
            Map<Integer, String> others = new HashMap<>();
            form.logs().stream()
                    .filter(other -> !other.equals(log))
                    .forEach(other -> others.put(other.number(), other.name()));
            sections.add(new Section(
                    log.number(),
                    log.name(),
                    size(log.bytes(), wording.numbers()),
                    begin,
                    columns(log, begin, form, wording),
                    begin.problems().stream().map(wording::problem).toList(),
                    others));
        }
        return new UploadReading(id, sections, form);
    }

    static String size(long bytes, Numbers numbers) {
        return bytes < 1 << 20
                ? numbers.fixed(Math.max(0.1, bytes / 1024.0), bytes < 10_240 ? 1 : 0) + "\u00a0KiB"
                : numbers.fixed(bytes / 1048576.0, 1) + "\u00a0MiB";
    }

    private static List<Column> columns(UploadStore.Log log, LogBegin begin, UploadForm form, Wording wording) {
        List<Column> columns = new ArrayList<>();
        for (int i = 0; i < Math.min(begin.headings().size(), UploadForm.MOST_COLUMNS); i++) {
            int number = i + 1;
            String field = UploadForm.column(log, number);
            int place = place(begin, number);
            ReadAs.Taken taken = place < 0 ? null : begin.taken().get(place);
            // a role that was chosen and cannot be read must stay chosen, or nobody could mend its unit
            String role = taken == null ? form.text(field) : taken.role().key();
            ColumnRole known = UploadForm.role(role);
            String unit = form.text(field + "_unit");
            columns.add(new Column(
                    field,
                    number,
                    begin.headings().get(i).strip(),
                    written(begin, i),
                    role,
                    known == null ? List.of() : known.units(),
                    unit.isEmpty() && taken != null ? taken.unit() : unit,
                    taken == null ? List.of() : understood(begin, place, taken.role(), wording)));
        }
        return columns;
    }

    private static int place(LogBegin begin, int column) {
        for (int k = 0; k < begin.taken().size(); k++) {
            if (begin.taken().get(k).number() == column) {
                return k;
            }
        }
        return -1;
    }

    private static List<String> written(LogBegin begin, int column) {
        return begin.cells().stream()
                .map(row -> column < row.size() ? Wording.shown(row.get(column).strip()) : "")
                .toList();
    }

    private static List<String> understood(LogBegin begin, int place, ColumnRole role, Wording wording) {
        List<String> values = new ArrayList<>();
        for (List<Double> row : begin.firstRows()) {
            double value = row.get(place);
            String unit = wording.text("upload.unit." + role.key());
            String number = wording.numbers().plain(role == ColumnRole.DROPOUT ? 100 * value : value, 9);
            values.add(Double.isNaN(value) ? wording.text("upload.empty_cell") : number + unit);
        }
        return values;
    }
}
