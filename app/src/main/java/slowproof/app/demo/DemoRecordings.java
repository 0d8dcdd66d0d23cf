package slowproof.app.demo;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.IntFunction;
import slowproof.app.demo.DemoBench.Run;
import slowproof.archive.Archive;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;
import slowproof.archive.sheet.FactName;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.DemoPlant;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.RecorderPlan;
import slowproof.trial.simulator.SimRecording;

/** The recorded trials of the scenario: logs of some seconds, kept as raw files. */
final class DemoRecordings {
    private static final double RATE_HZ = 100;
    private static final double CLOCK_OFFSET_S = 0.4;
    private static final double CLOCK_DRIFT_PPM = 60;

    private final Archive archive;
    private final Map<String, String> logs = new LinkedHashMap<>();
    private final StringBuilder recordings = new StringBuilder();

    private DemoRecordings(Archive archive) {
        this.archive = archive;
    }

    /** Returns the trials; their logs are in the archive then. */
    static List<DemoCase> all(Archive archive) {
        Run felt = new Run(DemoPlant.felt(), DemoPlant.STROKE_MM, 2, List.of(245.0, 90.0, 55.0));
        Run fabric = new Run(DemoPlant.fabric(), DemoPlant.STROKE_MM, 2, List.of(245.0, 150.0));
        return List.of(
                new DemoRecordings(archive)
                        .of(19, "Felt, recorded with the axis", felt, RecorderPlan.oneClock(RATE_HZ), 41),
                new DemoRecordings(archive)
                        .of(
                                8,
                                "Glass fabric, sensor and axis on clocks of their own",
                                fabric,
                                RecorderPlan.twoClocks(RATE_HZ, RATE_HZ, CLOCK_OFFSET_S, CLOCK_DRIFT_PPM),
                                42));
    }

    private DemoCase of(int daysAgo, String title, Run run, RecorderPlan recorder, long seed) {
        BenchPlan plan = run.plan();
        boolean oneClock = recorder.clockOffsetS() == 0;
        for (int i = 0; i < plan.series().size(); i++) {
            String name = "run-0" + (i + 1);
            SimRecording recording = Bench.record(plan, i, recorder, RandomStreams.of(seed));
            recordings.append(String.format(
                    Locale.ROOT,
                    "  - {material: \"%s\", speed_mm_s: %s, acceleration_mm_s2: %s, name: \"%s\", ",
                    run.material().name(),
                    run.speedsMmPerS().get(i),
                    DemoPlant.ACCELERATION_MM_PER_S2,
                    name));
            if (oneClock) {
                keep(name + ".csv", together(recording));
                recordings.append("file: \"").append(name).append(".csv\"}\n");
            } else {
                keep(name + "-sensor.csv", sensor(recording));
                keep(name + "-axis.csv", axis(recording));
                recordings.append(String.format(
                        Locale.ROOT, "sensor_file: \"%s-sensor.csv\", reference_file: \"%s-axis.csv\"}\n", name, name));
            }
        }
        return new DemoCase(daysAgo, events(title));
    }

    private List<NewEvent> events(String title) {
        List<NewEvent> events = new ArrayList<>(List.of(
                DemoCase.fact(FactName.TITLE, title),
                DemoCase.fact(FactName.SENSOR_NAME, "bench sensor"),
                DemoCase.fact(FactName.SENSOR_SERIAL, DemoTrials.FIRST),
                DemoCase.fact(FactName.DISTANCE_PER_COUNT, String.valueOf(DemoPlant.DISTANCE_PER_COUNT_MM)),
                DemoCase.fact(FactName.REFERENCE_NAME, "carriage scale"),
                DemoCase.fact(FactName.REFERENCE_KIND, "axis"),
                DemoCase.fact(FactName.REFERENCE_UNCERTAINTY, String.valueOf(DemoPlant.REFERENCE_EXPANDED_MM)),
                DemoCase.fact(FactName.REFERENCE_PPM, String.valueOf(DemoPlant.REFERENCE_EXPANDED_PPM)),
                DemoCase.fact(FactName.LIMIT_PERCENT, "0.15"),
                DemoCase.fact(FactName.LIMIT_LENGTH, String.valueOf(DemoPlant.LIMIT_MM)),
                DemoCase.fact(FactName.SETUP_NAME, "A, recorded"),
                DemoCase.fact(FactName.NOTES, DemoArchive.INVENTED)));
        logs.forEach((name, content) -> {
            byte[] bytes = content.getBytes(StandardCharsets.US_ASCII);
            events.add(NewEvent.of(
                    EventKind.LOG,
                    "sha256",
                    archive.keepFile(bytes),
                    "name",
                    name,
                    "bytes",
                    String.valueOf(bytes.length)));
        });
        String trial = "trial: \"" + title + "\"\nsensor: {distance_per_count_mm: " + DemoPlant.DISTANCE_PER_COUNT_MM
                + ", evaluation: x4}\nrecordings:\n" + recordings;
        events.add(NewEvent.of(EventKind.RECORDINGS, "trial", trial));
        return events;
    }

    private void keep(String name, String content) {
        logs.put(name, content);
    }

    private static String together(SimRecording recording) {
        double[] time = recording.sensorTimeS();
        long[] count = recording.count();
        double[] position = recording.axisPositionMm();
        return rows(
                "time_s,count,reference_mm",
                time.length,
                List.of(i -> rounded(time[i]), i -> count[i], i -> rounded(position[i])));
    }

    private static String sensor(SimRecording recording) {
        double[] time = recording.sensorTimeS();
        long[] count = recording.count();
        return rows("time_s,count", time.length, List.of(i -> rounded(time[i]), i -> count[i]));
    }

    private static String axis(SimRecording recording) {
        double[] time = recording.axisTimeS();
        double[] position = recording.axisPositionMm();
        return rows("time_s,position_mm", time.length, List.of(i -> rounded(time[i]), i -> rounded(position[i])));
    }

    private static String rows(String heading, int count, List<IntFunction<Object>> columns) {
        StringBuilder rows = new StringBuilder(heading).append('\n');
        for (int i = 0; i < count; i++) {
            String separator = "";
            for (IntFunction<Object> column : columns) {
                rows.append(separator).append(column.apply(i));
                separator = ",";
            }
            rows.append('\n');
        }
        return rows.toString();
    }

    /** A tenth of a millisecond, a tenth of a micrometre: far below what either device resolves. */
    private static double rounded(double value) {
        return Math.round(value * 1e4) / 1e4;
    }
}
