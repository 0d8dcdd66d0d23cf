package slowproof.app.web;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import slowproof.archive.parcel.ParcelWriter;
import slowproof.archive.sheet.Recordings;
import slowproof.files.log.ColumnMapping;
import slowproof.files.log.ColumnRole;
import slowproof.files.log.ColumnSource;
import slowproof.files.log.Dialect;
import slowproof.files.out.YamlText;

/** Writes the trial file that says how logs are to be read: the same words that a person would write. */
final class UploadTrial {
    private static final String SENSOR = "sensor: {";

    private final UploadForm form;
    private final String unnamed;

    private UploadTrial(UploadForm form, String unnamed) {
        this.form = form;
        this.unnamed = unnamed;
    }

    /**
     * Returns the trial file.
     *
     * @param form what was chosen; without problems
     * @param unnamed word for a surface that nobody named
     * @param confirmed keys of the questions that a person answered with yes
     */
    static String of(UploadForm form, String unnamed, List<String> confirmed) {
        return new UploadTrial(form, unnamed).written(confirmed);
    }

    /**
     * Returns a trial file of a sheet with its recordings added, so that both read back as one trial. The logs are named
     * by the paths that raw files have in a trial taken along.
     *
     * @param sheet trial file of what was typed: facts, readings
     * @param recordings the recordings, their trial file as {@link #of} wrote it
     */
    static String merged(String sheet, Recordings recordings) {
        String kept = recordings.trial();
        List<String> lines = new ArrayList<>();
        boolean sensor = false;
        for (String line : sheet.split("\n")) {
            boolean own = line.startsWith(SENSOR);
            lines.add(own ? sensor(line, line(kept, SENSOR)) : line);
            sensor |= own;
        }
        if (!sensor) {
            lines.add(line(kept, SENSOR));
        }
        int from = kept.indexOf("recordings:\n");
        int to = kept.indexOf("\nconfirm: ", from);
        String read = to < 0 ? kept.substring(from) : kept.substring(from, to + 1);
        for (Map.Entry<String, String> file : recordings.files().entrySet()) {
            String path = ParcelWriter.path(file.getValue(), file.getKey());
            read = read.replace("file: " + YamlText.quoted(file.getKey()), "file: " + YamlText.quoted(path));
        }
        return String.join("\n", lines) + "\n" + read;
    }

    private static String line(String text, String start) {
        return text.lines().filter(line -> line.startsWith(start)).findFirst().orElse("");
    }

    /** What the sheet says of the sensor, and of the rest what the recordings need. */
    private static String sensor(String sheet, String kept) {
        List<String> parts = new ArrayList<>();
        for (String part : kept.substring(SENSOR.length(), kept.length() - 1).split(", ")) {
            String key = part.substring(0, part.indexOf(':') + 1);
            if (!sheet.contains("{" + key) && !sheet.contains(", " + key)) {
                parts.add(part);
            }
        }
        return parts.isEmpty() ? sheet : sheet.substring(0, sheet.length() - 1) + ", " + String.join(", ", parts) + "}";
    }

    private String written(List<String> confirmed) {
        StringBuilder yaml = new StringBuilder("trial: ")
                .append(YamlText.quoted(form.text("fact_title")))
                .append('\n');
        List<String> sensor = new ArrayList<>();
        add(sensor, "distance_per_count_mm", form.countMm());
        if (form.bits() != null) {
            sensor.add("counter_bits: " + form.bits());
        }
        sensor.add("evaluation: " + form.evaluation());
        yaml.append("sensor: ").append(map(sensor)).append('\n');
        yaml.append("recordings:\n");
        for (UploadStore.Log log : form.recordings()) {
            yaml.append("  - ").append(map(recording(log))).append('\n');
        }
        if (!confirmed.isEmpty()) {
            yaml.append("confirm: [").append(String.join(", ", confirmed)).append("]\n");
        }
        return yaml.toString();
    }

    private List<String> recording(UploadStore.Log log) {
        List<String> keys = new ArrayList<>();
        String material = form.text(UploadForm.of(log, "material"));
        keys.add("material: " + YamlText.quoted(material.isEmpty() ? unnamed : material));
        add(keys, "speed_mm_s", form.speedMmPerS(log));
        add(keys, "acceleration_mm_s2", form.accelerationMmPerS2(log));
        // passes keep their names wherever the log lies
        keys.add("name: " + YamlText.quoted(base(log.name())));
        UploadStore.Log reference = form.reference(log);
        if (reference == null) {
            keys.add("file: " + YamlText.quoted(log.name()));
            List<Double> typed = form.referencesMm(log);
            if (typed != null) {
                keys.add("reference_per_pass_mm: "
                        + typed.stream().map(UploadTrial::plain).collect(Collectors.joining(", ", "[", "]")));
            }
            reading(keys, "", log);
        } else {
            keys.add("sensor_file: " + YamlText.quoted(log.name()));
            keys.add("reference_file: " + YamlText.quoted(reference.name()));
            reading(keys, "sensor_", log);
            reading(keys, "reference_", reference);
        }
        if (form.reversed()) {
            keys.add("reversed: true");
        }
        add(keys, "dwell_s", form.dwellS());
        add(keys, "standstill_mm_s", form.stillMmPerS());
        return keys;
    }

    private static String base(String name) {
        int dot = name.indexOf('.');
        return dot > 0 ? name.substring(0, dot) : name;
    }

    private void reading(List<String> keys, String prefix, UploadStore.Log log) {
        ColumnMapping mapping = form.mapping(log);
        if (!mapping.columns().isEmpty()) {
            List<String> columns = new ArrayList<>();
            mapping.columns().entrySet().stream()
                    .sorted(Map.Entry.comparingByKey())
                    .forEach(entry -> columns.add(column(entry.getKey(), entry.getValue())));
            keys.add(prefix + "columns: " + map(columns));
        }
        Dialect dialect = form.dialect(log);
        List<String> written = new ArrayList<>();
        if (dialect.separator() != null) {
            written.add("separator: " + YamlText.quoted(String.valueOf(dialect.separator())));
        }
        if (dialect.decimal() != null) {
            written.add("decimal: " + YamlText.quoted(String.valueOf(dialect.decimal())));
        }
        if (dialect.headerRows() != null) {
            written.add("header_rows: " + dialect.headerRows());
        }
        if (dialect.encoding() != null) {
            written.add("encoding: " + dialect.encoding().name());
        }
        if (!written.isEmpty()) {
            keys.add(prefix + "dialect: " + map(written));
        }
    }

    private static String column(ColumnRole role, ColumnSource source) {
        List<String> keys = new ArrayList<>();
        keys.add("column: " + source.number());
        if (source.unit() != null) {
            keys.add("unit: " + source.unit());
        }
        add(keys, "circumference_mm", source.circumferenceMm());
        add(keys, "threshold", source.threshold());
        return role.key() + ": " + map(keys);
    }

    private static void add(List<String> keys, String key, @Nullable Double value) {
        if (value != null) {
            keys.add(key + ": " + plain(value));
        }
    }

    private static String plain(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    private static String map(List<String> keys) {
        return "{" + String.join(", ", keys) + "}";
    }
}
