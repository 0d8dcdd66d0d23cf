package slowproof.archive.sheet;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;
import slowproof.archive.typed.Typed;
import slowproof.trial.Certificate;
import slowproof.trial.Exclusion;
import slowproof.trial.Limit;
import slowproof.trial.ReadingMode;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.Series;
import slowproof.trial.Setup;
import slowproof.trial.Standstill;
import slowproof.trial.StatedAccuracy;
import slowproof.trial.Trial;

/**
 * Writes a trial of typed readings as the events that would have recorded it. What a sheet has no field for
 * (recordings, pieces, counter bits, latency, times, dropout shares) is left out.
 */
public final class TrialEvents {
    private final List<NewEvent> events = new ArrayList<>();

    private TrialEvents() {}

    /** Returns the events of a trial, to be recorded after the one that starts it. */
    public static List<NewEvent> of(Trial trial) {
        TrialEvents made = new TrialEvents();
        made.facts(trial);
        made.readings(trial);
        return List.copyOf(made.events);
    }

    private void facts(Trial trial) {
        text(FactName.TITLE, trial.title());
        Sensor sensor = trial.sensor();
        text(FactName.SENSOR_NAME, sensor.name());
        text(FactName.SENSOR_SERIAL, sensor.serial());
        number(FactName.DISTANCE_PER_COUNT, sensor.distancePerCountMm());
        number(FactName.RESOLUTION, sensor.readingResolutionMm());
        Reference reference = trial.reference();
        text(FactName.REFERENCE_NAME, reference.name());
        text(FactName.REFERENCE_KIND, reference.kind().name().toLowerCase(Locale.ROOT));
        number(FactName.REFERENCE_UNCERTAINTY, reference.expandedUncertaintyMm());
        number(FactName.REFERENCE_PPM, reference.expandedUncertaintyPpm());
        number(FactName.COVERAGE_FACTOR, reference.coverageFactor());
        text(
                FactName.TAPE_CLASS,
                reference.tapeClass() == null ? "" : reference.tapeClass().name());
        Certificate certificate = reference.certificate();
        text(FactName.CERTIFICATE_NUMBER, certificate.number());
        text(FactName.CERTIFICATE_ISSUED_BY, certificate.issuedBy());
        text(FactName.CERTIFICATE_DATE, certificate.date());
        text(FactName.CERTIFICATE_TRACEABLE_TO, certificate.traceableTo());
        Limit limit = trial.limit();
        if (limit != null) {
            number(FactName.LIMIT_PERCENT, percent(limit.relative()));
            number(FactName.LIMIT_LENGTH, limit.absoluteMm());
        }
        StatedAccuracy stated = trial.stated();
        if (stated != null) {
            number(FactName.STATED_PERCENT, percent(stated.relative()));
            number(FactName.STATED_FROM, stated.fromSpeedMmPerS());
        }
        Setup setup = trial.setup();
        text(FactName.SETUP_NAME, setup.name());
        text(FactName.FIRMWARE, setup.firmware());
        text(FactName.PARAMETERS, setup.parameters());
        text(FactName.WINDOW, setup.window());
        number(FactName.WORKING_DISTANCE, setup.workingDistanceMm());
        number(FactName.MISALIGNMENT, setup.misalignmentDegrees());
        number(FactName.ABBE_OFFSET, setup.abbeOffsetMm());
        number(FactName.ABBE_ANGLE, setup.abbeAngleDegrees());
        number(FactName.TEMPERATURE, setup.temperatureMeanC());
        number(FactName.TEMPERATURE_HALF_WIDTH, setup.temperatureHalfWidthC());
        number(FactName.EXPANSION, setup.expansionPpmPerK());
        text(FactName.DECISION_RULE, trial.rule().name().toLowerCase(Locale.ROOT));
        text(FactName.READING_MODE, trial.mode() == ReadingMode.ZEROED ? "zeroed" : "cumulative");
    }

    private static double percent(double ratio) {
        return BigDecimal.valueOf(ratio).movePointRight(2).doubleValue();
    }

    private void number(FactName name, @Nullable Double value) {
        if (value != null) {
            text(name, plain(value));
        }
    }

    private void text(FactName name, String text) {
        if (!text.isEmpty()) {
            events.add(Sheet.noting(name, typed(text)));
        }
    }

    private void readings(Trial trial) {
        Map<String, String> reasons = new HashMap<>();
        for (Exclusion exclusion : trial.exclusions()) {
            reasons.put(exclusion.pass(), exclusion.reason());
        }
        for (Series series : trial.series()) {
            List<Standstill> rows = series.standstills();
            Double acceleration = series.accelerationMmPerS2();
            events.add(Sheet.starting(
                    series.material(),
                    typed(plain(series.speedMmPerS())),
                    acceleration == null ? "" : plain(acceleration),
                    written(rows.get(0).referenceMm(), rows.get(0)),
                    written(rows.get(1).referenceMm(), rows.get(1)),
                    false));
            for (int i = 0; i < rows.size(); i++) {
                Standstill row = rows.get(i);
                if (i == 0 && trial.mode() == ReadingMode.ZEROED) {
                    continue;
                }
                events.add(
                        Sheet.reading(typed(written(row.readingMm(), row)), written(row.referenceMm(), row), i == 0));
                String reason = reasons.get(series.name() + "/" + i);
                if (reason != null) {
                    // the event that starts the trial has the number 1
                    String reading = String.valueOf(events.size() + 1);
                    events.add(NewEvent.of(EventKind.SPOILED, "reading", reading, "text", reason));
                }
            }
        }
    }

    private static String written(double value, Standstill row) {
        return BigDecimal.valueOf(value)
                .setScale(row.decimals(), RoundingMode.HALF_EVEN)
                .toPlainString();
    }

    private static String plain(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    private static Typed typed(String text) {
        return new Typed(text, Typed.NOTHING.mark(), Typed.NOTHING.lengthUnit(), Typed.NOTHING.speedUnit());
    }
}
