package slowproof.files.out;

import java.io.IOException;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Certificate;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.Setup;
import slowproof.trial.StatedAccuracy;
import slowproof.trial.Trial;

/** Writes what a trial compared with what: sensor, reference with its certificate, the maker's statement, set-up. */
final class SubjectJson {
    private final JsonRecords json;
    private final String unknown;

    /**
     * Prepares it.
     *
     * @param json where to
     * @param unknown why a part is null
     */
    SubjectJson(JsonRecords json, String unknown) {
        this.json = json;
        this.unknown = unknown;
    }

    void write(Trial trial) throws IOException {
        sensor(trial.sensor());
        reference(trial.reference());
        stated(trial.stated());
        setup(trial.setup());
    }

    private void sensor(Sensor sensor) throws IOException {
        json.begin("sensor");
        text("name", sensor.name());
        text("serial", sensor.serial());
        number("distance_per_count_mm", sensor.distancePerCountMm());
        json.whole("counter_bits", sensor.counterBits(), unknown);
        number("reading_resolution_mm", sensor.readingResolutionMm());
        json.end();
    }

    private void reference(Reference reference) throws IOException {
        json.begin("reference");
        text("name", reference.name());
        json.text("kind", reference.kind().name().toLowerCase(Locale.ROOT));
        number("expanded_uncertainty_mm", reference.expandedUncertaintyMm());
        number("expanded_uncertainty_ppm", reference.expandedUncertaintyPpm());
        json.number("coverage_factor", reference.coverageFactor());
        text(
                "tape_class",
                reference.tapeClass() == null ? "" : reference.tapeClass().name());
        number("circumference_mm", reference.circumferenceMm());
        Certificate certificate = reference.certificate();
        if (certificate.isEmpty()) {
            json.absent("certificate", unknown);
        } else {
            json.begin("certificate");
            text("number", certificate.number());
            text("issued_by", certificate.issuedBy());
            text("date", certificate.date());
            text("traceable_to", certificate.traceableTo());
            json.end();
        }
        json.end();
    }

    private void stated(@Nullable StatedAccuracy stated) throws IOException {
        if (stated == null) {
            json.absent("stated", unknown);
            return;
        }
        json.begin("stated");
        json.percent("relative_pct", stated.relative());
        json.number("from_speed_mm_s", stated.fromSpeedMmPerS());
        json.end();
    }

    private void setup(Setup setup) throws IOException {
        json.begin("setup");
        text("name", setup.name());
        text("firmware", setup.firmware());
        text("parameters", setup.parameters());
        text("window", setup.window());
        number("working_distance_mm", setup.workingDistanceMm());
        number("misalignment_deg", setup.misalignmentDegrees());
        number("abbe_offset_mm", setup.abbeOffsetMm());
        number("abbe_angle_deg", setup.abbeAngleDegrees());
        number("reference_temperature_c", setup.temperatureMeanC());
        number("reference_temperature_half_width_k", setup.temperatureHalfWidthC());
        number("expansion_ppm_per_k", setup.expansionPpmPerK());
        number("latency_s", setup.latencyS());
        json.end();
    }

    private void text(String key, String value) throws IOException {
        json.text(key, value.isEmpty() ? null : value, unknown);
    }

    private void number(String key, @Nullable Double value) throws IOException {
        json.number(key, value, unknown);
    }
}
