package slowproof.files.in;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import slowproof.files.log.ColumnMapping;
import slowproof.files.log.ColumnRole;
import slowproof.files.log.ColumnSource;
import slowproof.files.log.Dialect;
import slowproof.files.log.LogPart;
import slowproof.files.log.LogRequest;
import slowproof.trial.counts.CounterRegister;
import slowproof.trial.counts.Quadrature;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.recording.BreakRule;
import slowproof.trial.recording.PassSettings;
import slowproof.trial.recording.SensorScale;

/** What is kept is never taken for what another setting would give: each setting changes the name. */
class SettingsKeyTest {
    private static final SensorScale SCALE =
            new SensorScale(0.05, new CounterRegister(16, false), null, Quadrature.Evaluation.X4);
    private static final LogRequest LOG = new LogRequest(
            "run.csv", LogPart.BOTH, ColumnMapping.RECOGNISED, Dialect.RECOGNISED, SCALE, null, BreakRule.DEFAULT);
    private static final PassSettings SETTINGS = PassSettings.DEFAULT;

    private static final SourcePosition AT = SourcePosition.ofFile("trial.yaml");

    private final List<String> keys = new ArrayList<>();

    private void add(LogRequest log) {
        add(log, null, false, SETTINGS);
    }

    private void add(LogRequest log, LogRequest reference, boolean reversed, PassSettings settings) {
        add(new RecordingCutter.Wanted("name", log, reference, null, reversed, settings, AT));
    }

    private void add(RecordingCutter.Wanted wanted) {
        keys.add(RecordingCutter.settingsKey(wanted));
    }

    private void add(SensorScale scale) {
        add(new LogRequest(LOG.name(), LOG.part(), LOG.columns(), LOG.dialect(), scale, null, LOG.breaks()));
    }

    private void add(BreakRule breaks) {
        add(new LogRequest(LOG.name(), LOG.part(), LOG.columns(), LOG.dialect(), SCALE, null, breaks));
    }

    private void add(ColumnRole role, ColumnSource source) {
        add(LOG.with(new ColumnMapping(Map.of(role, source))));
    }

    private void expect(Class<?> settings, int components) {
        assertThat(settings.getRecordComponents())
                .as("components of %s; a new one belongs into the key and into this test", settings.getSimpleName())
                .hasSize(components);
    }

    @Test
    void everySettingChangesTheName() {
        add(LOG);
        expect(RecordingCutter.Wanted.class, 7);
        for (List<Double> typed : List.of(List.<Double>of(), List.of(600.0), List.of(600.0, 599.0))) {
            TypedReferences references = new TypedReferences(typed, AT);
            add(new RecordingCutter.Wanted("name", LOG, null, references, false, SETTINGS, AT));
        }
        add(LOG, LOG.as(LogPart.REFERENCE), false, SETTINGS);
        add(LOG, null, true, SETTINGS);

        expect(LogRequest.class, 7);
        add(new LogRequest("other.csv", LogPart.BOTH, LOG.columns(), LOG.dialect(), SCALE, null, LOG.breaks()));
        add(LOG.as(LogPart.SENSOR));
        add(new LogRequest(LOG.name(), LOG.part(), LOG.columns(), LOG.dialect(), SCALE, 500.0, LOG.breaks()));

        expect(ColumnMapping.class, 1);
        expect(ColumnSource.class, 5);
        add(ColumnRole.COUNT, ColumnSource.number(2).in("null"));
        add(ColumnRole.COUNT, ColumnSource.number(2));
        add(ColumnRole.TIME, ColumnSource.number(2));
        add(ColumnRole.COUNT, ColumnSource.heading("2"));
        add(ColumnRole.COUNT, ColumnSource.number(2).in("mm"));
        add(ColumnRole.COUNT, ColumnSource.number(2).onRoll(400));
        add(ColumnRole.COUNT, ColumnSource.number(2).below(400));

        expect(Dialect.class, 5);
        add(LOG.with(new Dialect(';', null, null, null, null)));
        add(LOG.with(new Dialect(null, ',', null, null, null)));
        add(LOG.with(new Dialect(null, null, 3, null, null)));
        add(LOG.with(new Dialect(null, null, null, StandardCharsets.UTF_16, null)));
        add(LOG.with(new Dialect(null, null, null, null, ';')));

        expect(SensorScale.class, 4);
        expect(CounterRegister.class, 2);
        CounterRegister register = new CounterRegister(16, false);
        add(new SensorScale(0.1, register, null, Quadrature.Evaluation.X4));
        add(new SensorScale(0.05, null, null, Quadrature.Evaluation.X4));
        add(new SensorScale(0.05, new CounterRegister(24, false), null, Quadrature.Evaluation.X4));
        add(new SensorScale(0.05, new CounterRegister(16, true), null, Quadrature.Evaluation.X4));
        add(new SensorScale(0.05, register, 0.1, Quadrature.Evaluation.X4));
        add(new SensorScale(0.05, register, null, Quadrature.Evaluation.X2));

        expect(BreakRule.class, 2);
        add(new BreakRule(20, 0.5));
        add(new BreakRule(10, 20));

        expect(PassSettings.class, 4);
        add(LOG, null, false, new PassSettings(1, null, null, 0.25));
        add(LOG, null, false, new PassSettings(0.5, 1.0, null, 0.25));
        add(LOG, null, false, new PassSettings(0.5, 1.0, 1.0, 0.25));
        add(LOG, null, false, new PassSettings(0.5, null, null, 1));

        assertThat(keys).doesNotHaveDuplicates();
    }
}
