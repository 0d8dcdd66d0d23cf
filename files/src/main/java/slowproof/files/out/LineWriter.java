package slowproof.files.out;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceSpec;

/** Writes a described line as a line file that reads back to the same line. */
public final class LineWriter {
    private static final double PERCENT = 100;

    private final StringBuilder text = new StringBuilder();

    private LineWriter() {}

    /**
     * Returns the bytes of the file, UTF-8.
     *
     * @param line a line whose cycle is described
     * @throws IllegalArgumentException if the line is a log, which is a file already
     */
    public static byte[] bytes(Line line) {
        if (line.log() != null) {
            throw new IllegalArgumentException("a logged line has no steps to write");
        }
        LineWriter writer = new LineWriter();
        writer.write(line);
        return writer.text.toString().getBytes(StandardCharsets.UTF_8);
    }

    private void write(Line line) {
        key("line", YamlText.quoted(line.title()));
        String material = line.material();
        if (material != null) {
            key("material", YamlText.quoted(material));
        }
        text.append("pieces:\n");
        for (PieceSpec piece : line.pieces()) {
            text.append("  - {length_mm: ").append(number(piece.lengthMm()));
            Double lower = piece.lowerMm();
            Double upper = piece.upperMm();
            if (lower != null && upper != null) {
                text.append(", tolerance_mm: {lower_mm: ")
                        .append(number(lower))
                        .append(", upper_mm: ")
                        .append(number(upper))
                        .append('}');
            }
            text.append(", share: ").append(number(piece.share())).append("}\n");
        }
        key("pieces_per_cycle", String.valueOf(line.piecesPerCycle()));
        key("cut_on", line.cutsOnSensor() ? "sensor" : "elsewhere");
        text.append("cycle:\n");
        line.cycle().forEach(step -> text.append("  - ").append(step(step)).append('\n'));
        key("trigger_jitter_s", number(line.triggerJitterS()));
        optional("trigger_latency_s", line.triggerLatencyS());
        optional("standstill_drift_mm_min", line.standstillDriftMmPerMin());
        Double spread = line.unitSpread();
        if (spread != null) {
            key(
                    "unit_spread",
                    "{relative_pct: " + number(PERCENT * spread) + ", source: "
                            + YamlText.quoted(line.unitSpreadSource()) + "}");
        }
        key(
                "promise",
                "{coverage_pct: " + number(PERCENT * line.coverage()) + ", confidence_pct: "
                        + number(PERCENT * line.confidence()) + "}");
    }

    private void key(String key, String value) {
        text.append(key).append(": ").append(value).append('\n');
    }

    private void optional(String key, @Nullable Double value) {
        if (value != null) {
            key(key, number(value));
        }
    }

    private static String step(LineStep step) {
        if (step instanceof LineStep.RampTo ramp) {
            Double jerk = ramp.jerkMmPerS3();
            return "{ramp_to_mm_s: " + number(ramp.speedMmPerS()) + ", acceleration_mm_s2: "
                    + number(ramp.accelerationMmPerS2()) + (jerk == null ? "" : ", jerk_mm_s3: " + number(jerk)) + "}";
        } else if (step instanceof LineStep.HoldMm hold) {
            return "{hold_mm: " + number(hold.distanceMm()) + "}";
        } else if (step instanceof LineStep.HoldS hold) {
            return "{hold_s: " + number(hold.durationS()) + "}";
        } else if (step instanceof LineStep.Stop stop) {
            return "{stop_s: " + number(stop.durationS()) + "}";
        } else if (step instanceof LineStep.Reverse reverse) {
            return "{reverse_mm: " + number(reverse.distanceMm()) + ", speed_mm_s: " + number(reverse.speedMmPerS())
                    + ", acceleration_mm_s2: " + number(reverse.accelerationMmPerS2()) + "}";
        } else if (step instanceof LineStep.Repeat repeat) {
            List<String> inner = repeat.steps().stream().map(LineWriter::step).toList();
            return "{repeat: " + repeat.times() + ", steps: [" + String.join(", ", inner) + "]}";
        }
        return "{hold_rest: true}";
    }

    /** The shortest text that reads back to the same number. */
    private static String number(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? String.format(Locale.ROOT, "%.0f", value)
                : String.valueOf(value);
    }
}
