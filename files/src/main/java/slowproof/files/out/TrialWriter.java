package slowproof.files.out;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.conformity.DecisionRule;
import slowproof.trial.Exclusion;
import slowproof.trial.Limit;
import slowproof.trial.LimitPreset;
import slowproof.trial.Piece;
import slowproof.trial.ReadingMode;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.Series;
import slowproof.trial.Setup;
import slowproof.trial.Standstill;
import slowproof.trial.StatedAccuracy;
import slowproof.trial.Trial;

/**
 * Writes a trial as the files that the reader takes: {@code trial.yaml}, {@code readings.csv} and
 * {@code pieces.csv}. Read back they give the same trial. Passes from recordings are not written: their logs are
 * the raw data.
 */
public final class TrialWriter {
    private TrialWriter() {}

    /**
     * Returns the files of a trial by name, ready to be put in a folder or an archive file.
     *
     * @param trial the trial
     * @param remark first line of the trial file, as a comment; empty for none
     */
    public static Map<String, byte[]> files(Trial trial, String remark) {
        Map<String, byte[]> files = new LinkedHashMap<>();
        files.put("trial.yaml", bytes(yaml(trial, remark)));
        if (!trial.series().isEmpty()) {
            files.put("readings.csv", bytes(readings(trial)));
        }
        if (!trial.pieces().isEmpty()) {
            files.put("pieces.csv", bytes(pieces(trial)));
        }
        return files;
    }

    /**
     * Writes the files of a trial to a folder, which is made when it does not exist. Each appears whole or not at all.
     *
     * @throws IOException if a file cannot be written
     */
    public static void write(Trial trial, String remark, Path folder) throws IOException {
        Files.createDirectories(folder);
        for (Map.Entry<String, byte[]> file : files(trial, remark).entrySet()) {
            WholeFile.write(folder.resolve(file.getKey()), stream -> stream.write(file.getValue()));
        }
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static String yaml(Trial trial, String remark) {
        StringBuilder out = new StringBuilder();
        if (!remark.isEmpty()) {
            out.append("# ").append(remark).append('\n');
        }
        out.append("trial: ").append(YamlText.quoted(trial.title())).append('\n');
        sensor(out, trial.sensor());
        reference(out, trial.reference());
        limit(out, trial.limit());
        StatedAccuracy stated = trial.stated();
        if (stated != null) {
            new Flow()
                    .number("relative_pct", percent(stated.relative()))
                    .number("from_speed_mm_s", stated.fromSpeedMmPerS())
                    .line(out, "stated");
        }
        setup(out, trial.setup());
        if (trial.rule() != DecisionRule.PROBABILITY) {
            out.append("decision_rule: ").append(word(trial.rule())).append('\n');
        }
        if (trial.mode() == ReadingMode.ZEROED) {
            out.append("reading_mode: zeroed\n");
        }
        if (!trial.series().isEmpty()) {
            out.append("readings: readings.csv\n");
        }
        if (!trial.pieces().isEmpty()) {
            out.append("pieces: pieces.csv\n");
        }
        if (!trial.exclusions().isEmpty()) {
            out.append("exclude:\n");
            for (Exclusion exclusion : trial.exclusions()) {
                out.append("  - ")
                        .append(new Flow().text("pass", exclusion.pass()).text("reason", exclusion.reason()))
                        .append('\n');
            }
        }
        return out.toString();
    }

    private static void sensor(StringBuilder out, Sensor sensor) {
        Integer bits = sensor.counterBits();
        new Flow()
                .text("name", sensor.name())
                .text("serial", sensor.serial())
                .number("distance_per_count_mm", sensor.distancePerCountMm())
                .number("counter_bits", bits == null ? null : Double.valueOf(bits))
                .number("reading_resolution_mm", sensor.readingResolutionMm())
                .line(out, "sensor");
    }

    private static void reference(StringBuilder out, Reference reference) {
        Flow certificate = new Flow()
                .text("number", reference.certificate().number())
                .text("issued_by", reference.certificate().issuedBy())
                .text("date", reference.certificate().date())
                .text("traceable_to", reference.certificate().traceableTo());
        new Flow()
                .text("name", reference.name())
                .word("kind", word(reference.kind()))
                .number("expanded_uncertainty_mm", reference.expandedUncertaintyMm())
                .number("expanded_uncertainty_ppm", reference.expandedUncertaintyPpm())
                .number("coverage_factor", reference.coverageFactor())
                .word("class", reference.tapeClass() == null ? "" : word(reference.tapeClass()))
                .number("circumference_mm", reference.circumferenceMm())
                .word("certificate", certificate.isEmpty() ? "" : certificate.toString())
                .line(out, "reference");
    }

    private static void limit(StringBuilder out, @Nullable Limit limit) {
        if (limit == null) {
            return;
        }
        Flow flow = new Flow();
        String preset = limit.preset();
        if (preset != null) {
            double smallest = LimitPreset.valueOf(preset).smallestLengthMm(limit);
            flow.word("preset", preset.toLowerCase(Locale.ROOT)).number("smallest_length_mm", smallest);
        } else {
            flow.number("relative_pct", percent(limit.relative())).number("absolute_mm", limit.absoluteMm());
        }
        flow.number("at_length_mm", limit.atLengthMm()).line(out, "limit");
    }

    private static void setup(StringBuilder out, Setup setup) {
        Flow temperature =
                new Flow().number("mean", setup.temperatureMeanC()).number("half_width", setup.temperatureHalfWidthC());
        new Flow()
                .text("name", setup.name())
                .text("firmware", setup.firmware())
                .number("working_distance_mm", setup.workingDistanceMm())
                .number("misalignment_deg", setup.misalignmentDegrees())
                .number("abbe_offset_mm", setup.abbeOffsetMm())
                .number("abbe_angle_deg", setup.abbeAngleDegrees())
                .word("reference_temperature_c", temperature.isEmpty() ? "" : temperature.toString())
                .number("expansion_ppm_per_k", setup.expansionPpmPerK())
                .number("latency_s", setup.latencyS())
                .text("parameters", setup.parameters())
                .text("window", setup.window())
                .line(out, "setup");
    }

    private static String readings(Trial trial) {
        StringBuilder out = new StringBuilder("series,material,speed_mm_s,acceleration_mm_s2,reference_mm,reading_mm,"
                + "dropout_pct,time,indicated_speed_mm_s,reference_speed_mm_s,track,setup\n");
        for (Series series : trial.series()) {
            boolean start = true;
            for (Standstill row : series.standstills()) {
                Double acceleration = series.accelerationMmPerS2();
                out.append(cell(series.name())).append(',').append(cell(series.material()));
                out.append(',').append(start ? "" : plain(series.speedMmPerS()));
                out.append(',').append(start || acceleration == null ? "" : plain(acceleration));
                out.append(',').append(recorded(row.referenceMm(), row.decimals()));
                out.append(',').append(recorded(row.readingMm(), row.decimals()));
                out.append(',').append(plain(row.dropoutPercent()));
                out.append(',').append(row.time() == null ? "" : row.time());
                out.append(',').append(plain(row.indicatedSpeedMmPerS()));
                out.append(',').append(plain(row.referenceSpeedMmPerS()));
                out.append(',').append(cell(row.track()));
                out.append(',').append(cell(series.setup())).append('\n');
                start = false;
            }
        }
        return out.toString();
    }

    private static String pieces(Trial trial) {
        StringBuilder out = new StringBuilder("piece,material,speed_mm_s,reference_mm,reading_mm,dropout_pct\n");
        for (Piece piece : trial.pieces()) {
            out.append(cell(piece.name())).append(',').append(cell(piece.material()));
            out.append(',').append(plain(piece.speedMmPerS()));
            out.append(',').append(recorded(piece.referenceMm(), piece.decimals()));
            out.append(',').append(recorded(piece.readingMm(), piece.decimals()));
            out.append(',').append(plain(piece.dropoutPercent())).append('\n');
        }
        return out.toString();
    }

    private static String recorded(double value, int decimals) {
        return BigDecimal.valueOf(value)
                .setScale(decimals, RoundingMode.HALF_EVEN)
                .toPlainString();
    }

    private static String plain(@Nullable Double value) {
        return value == null
                ? ""
                : BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    private static Double percent(double ratio) {
        return BigDecimal.valueOf(ratio).movePointRight(2).doubleValue();
    }

    private static String word(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT);
    }

    private static String cell(String text) {
        boolean plain = text.chars().noneMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r' || c == '#');
        return plain ? text : '"' + text.replace("\"", "\"\"") + '"';
    }

    /** A YAML mapping on one line; absent values are left out. */
    private static final class Flow {
        private final StringBuilder out = new StringBuilder();

        Flow number(String key, @Nullable Double value) {
            return word(key, plain(value));
        }

        Flow text(String key, String value) {
            return word(key, value.isEmpty() ? "" : YamlText.quoted(value));
        }

        Flow word(String key, String value) {
            if (!value.isEmpty()) {
                out.append(out.isEmpty() ? "" : ", ").append(key).append(": ").append(value);
            }
            return this;
        }

        boolean isEmpty() {
            return out.isEmpty();
        }

        void line(StringBuilder target, String key) {
            if (!isEmpty()) {
                target.append(key).append(": ").append(this).append('\n');
            }
        }

        @Override
        public String toString() {
            return "{" + out + "}";
        }
    }
}
