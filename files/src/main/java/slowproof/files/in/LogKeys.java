package slowproof.files.in;

import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.UnsupportedCharsetException;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import slowproof.files.log.ColumnMapping;
import slowproof.files.log.ColumnRole;
import slowproof.files.log.ColumnSource;
import slowproof.files.log.Dialect;
import slowproof.trial.input.ProblemCode;

/** The keys {@code columns} and {@code dialect}, by which a trial or a line says how its logs are written. */
final class LogKeys {
    static final Set<String> DIALECT =
            new TreeSet<>(List.of("separator", "decimal", "header", "header_rows", "encoding", "comment"));
    private static final Set<String> COLUMN = new TreeSet<>(List.of("column", "unit", "circumference_mm", "threshold"));

    private final Problems problems;

    LogKeys(Problems problems) {
        this.problems = problems;
    }

    /** Returns which column holds what; a map that is not there leaves all to be recognised. */
    ColumnMapping columns(@Nullable YamlMap map) {
        if (map == null) {
            return ColumnMapping.RECOGNISED;
        }
        Map<ColumnRole, ColumnSource> columns = new EnumMap<>(ColumnRole.class);
        for (ColumnRole role : ColumnRole.values()) {
            if (map.has(role.key())) {
                ColumnSource source = map.isScalar(role.key())
                        ? named(map.textOr(role.key(), ""), null, null, null)
                        : column(map.map(role.key(), COLUMN));
                if (source != null) {
                    columns.put(role, source);
                }
            }
        }
        return new ColumnMapping(columns);
    }

    private @Nullable ColumnSource column(@Nullable YamlMap map) {
        if (map == null) {
            return null;
        }
        map.require("column");
        String column = map.text("column");
        return column == null
                ? null
                : named(column, map.text("unit"), map.positive("circumference_mm"), map.number("threshold"));
    }

    private static ColumnSource named(
            String column, @Nullable String unit, @Nullable Double circumference, @Nullable Double threshold) {
        boolean number = column.length() < 6 && column.matches("[1-9][0-9]*");
        return new ColumnSource(
                number ? null : column, number ? Integer.valueOf(column) : null, unit, circumference, threshold);
    }

    /** Returns how a log is written; a map that is not there leaves all to be recognised. */
    Dialect dialect(@Nullable YamlMap map) {
        if (map == null) {
            return Dialect.RECOGNISED;
        }
        Character decimal = sign(map, "decimal", ". ,");
        Character separator = sign(map, "separator", ", ; tab");
        if (decimal != null && decimal != '.' && decimal != ',') {
            problems.add(ProblemCode.UNKNOWN_CHOICE, map.at("decimal"), map.textOr("decimal", ""), ". ,");
            decimal = null;
        }
        // a comma may be both, where numbers stand in quotes
        if (decimal != null && decimal == '.' && decimal.equals(separator)) {
            problems.add(ProblemCode.UNKNOWN_CHOICE, map.at("separator"), map.textOr("separator", ""), ", ; \\t");
            separator = null;
        }
        Double rows = map.notNegative("header_rows");
        String header = map.text("header");
        Integer headerRows = rows == null ? null : Integer.valueOf(rows.intValue());
        if (header != null && headerRows == null) {
            if (header.equals("false")) {
                headerRows = 0;
            } else if (!header.equals("true")) {
                problems.add(ProblemCode.UNKNOWN_CHOICE, map.at("header"), header, "true, false");
            }
        }
        return new Dialect(separator, decimal, headerRows, encoding(map), sign(map, "comment", "# % ! / '"));
    }

    /** Returns the one sign that a key holds; null without it and, noted, for more than one. */
    private @Nullable Character sign(YamlMap map, String key, String permitted) {
        String text = map.rawText(key);
        if (text == null) {
            return null;
        }
        String meant = text.equals("tab") || text.equals("\\t") ? "\t" : text;
        if (meant.length() != 1) {
            problems.add(ProblemCode.NOT_ONE_SIGN, map.at(key), text, permitted);
            return null;
        }
        return meant.charAt(0);
    }

    private @Nullable Charset encoding(YamlMap map) {
        String name = map.text("encoding");
        if (name == null) {
            return null;
        }
        try {
            return Charset.forName(name);
        } catch (IllegalCharsetNameException | UnsupportedCharsetException e) {
            problems.add(ProblemCode.UNKNOWN_CHOICE, map.at("encoding"), name, "UTF-8, UTF-16, windows-1252");
            return null;
        }
    }
}
