package slowproof.metrology.reference;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The data file of a reference case: named columns of equal length, kept as text until asked for as numbers.
 */
public final class CaseTable {
    private final Map<String, List<String>> columns;
    private final int rows;

    private CaseTable(Map<String, List<String>> columns, int rows) {
        this.columns = columns;
        this.rows = rows;
    }

    static CaseTable parse(String csv) {
        List<String> lines = csv.lines().filter(line -> !line.isBlank()).toList();
        List<String> names = List.of(lines.get(0).split(",", -1));
        Map<String, List<String>> columns = new LinkedHashMap<>();
        names.forEach(name -> columns.put(name, new ArrayList<>()));
        for (String line : lines.subList(1, lines.size())) {
            List<String> cells = List.of(line.split(",", -1));
            if (cells.size() != names.size()) {
                throw new IllegalArgumentException("expected " + names.size() + " cells, found: " + line);
            }
            for (int i = 0; i < names.size(); i++) {
                text(columns, names.get(i)).add(cells.get(i).strip());
            }
        }
        return new CaseTable(columns, lines.size() - 1);
    }

    /** Number of data rows. */
    public int rows() {
        return rows;
    }

    /** A column as written. */
    public List<String> text(String name) {
        return List.copyOf(text(columns, name));
    }

    /** A column as numbers. */
    public double[] column(String name) {
        return text(columns, name).stream().mapToDouble(Double::parseDouble).toArray();
    }

    /** The numbers of one column, grouped by the text of another, groups in order of appearance. */
    public Map<String, double[]> grouped(String by, String values) {
        List<String> keys = text(columns, by);
        double[] numbers = column(values);
        Map<String, List<Double>> groups = new LinkedHashMap<>();
        for (int i = 0; i < numbers.length; i++) {
            groups.computeIfAbsent(keys.get(i), key -> new ArrayList<>()).add(numbers[i]);
        }
        Map<String, double[]> result = new LinkedHashMap<>();
        groups.forEach((key, list) ->
                result.put(key, list.stream().mapToDouble(Double::doubleValue).toArray()));
        return result;
    }

    /** The rows in which a column has the given text. */
    public CaseTable where(String name, String value) {
        List<String> keys = text(columns, name);
        Map<String, List<String>> kept = new LinkedHashMap<>();
        columns.forEach((column, cells) -> {
            List<String> rowsKept = new ArrayList<>();
            for (int i = 0; i < keys.size(); i++) {
                if (keys.get(i).equals(value)) {
                    rowsKept.add(cells.get(i));
                }
            }
            kept.put(column, rowsKept);
        });
        return new CaseTable(kept, text(kept, name).size());
    }

    private static List<String> text(Map<String, List<String>> columns, String name) {
        List<String> cells = columns.get(name);
        if (cells == null) {
            throw new IllegalArgumentException("no column " + name + ", there are " + columns.keySet());
        }
        return cells;
    }
}
