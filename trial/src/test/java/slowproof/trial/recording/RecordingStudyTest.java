package slowproof.trial.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import slowproof.trial.curve.StudiesPage;
import slowproof.trial.recording.RecordingStudy.Outcome;

/** Recordings of random benches with known truth; the long one writes its figures to {@code docs/studies.md}. */
class RecordingStudyTest {
    private static final long SEED = Long.getLong("slowproof.seed", 77_077);
    private static final int USUAL = 300;
    private static final int TRIALS = Integer.getInteger("slowproof.trials", USUAL);
    private static final String BLOCK = "recordings";

    @Test
    void aFewRandomBenchesAreReadBack() {
        RecordingStudy study = RecordingStudy.run(SEED + 1, 12);
        assertThat(study.sumShare(Outcome::right, Outcome::judged))
                .as(study.wrong())
                .isGreaterThanOrEqualTo(0.95);
        assertThat(study.share(o -> o.found() == o.passes(), Outcome::joined))
                .as(study.wrong())
                .isGreaterThanOrEqualTo(0.85);
        assertThat(study.count(Outcome::joined)).isGreaterThanOrEqualTo(10);
        // twice the stated uncertainty of offset and drift holds about 95 %; 83 % leaves room for so few benches
        double inside = study.share(RecordingStudyTest::offsetInside, Outcome::estimated)
                + study.share(RecordingStudyTest::driftInside, Outcome::estimated);
        assertThat(inside / 2).isGreaterThanOrEqualTo(0.83);
    }

    @Test
    @Tag("long")
    void passesErrorsAndClocksOfRandomBenchesAreRight() {
        RecordingStudy study = RecordingStudy.run(SEED, TRIALS);
        Predicate<Outcome> fine = Outcome::fine;
        Predicate<Outcome> coarse = o -> o.estimated() && !o.fine();
        List<String> lines = new ArrayList<>(List.of("| figure | found | demanded |", "|---|---|---|"));
        double numbers = study.share(o -> o.found() == o.passes(), Outcome::joined);
        double errors = study.sumShare(Outcome::right, Outcome::judged);
        row(lines, "benches", "%.0f", TRIALS, "");
        row(
                lines,
                "passes in all",
                "%.0f",
                study.outcomes().stream().mapToInt(Outcome::passes).sum(),
                "");
        row(lines, "benches with the right number of passes", "%.4f", numbers, "at least 0.995");
        row(lines, "errors within a count and the reference's noise", "%.4f", errors, "at least 0.995");
        row(lines, "clocks brought together finely", "%.4f", study.share(Outcome::estimated, o -> true), "");
        study.reasons()
                .forEach((reason, count) ->
                        row(lines, "not so: " + reason.replace('_', ' '), "%.4f", (double) count / TRIALS, ""));
        clocks(lines, study, "stated within 0.1 ms and 1 ppm", fine, "at most 0.2 ms", "at most 2 ppm");
        clocks(lines, study, "stated wider", coarse, "", "");
        if (TRIALS >= USUAL) {
            StudiesPage.write(BLOCK, lines);
        } else {
            lines.forEach(System.out::println);
        }
        assertThat(numbers).as(study.wrong()).isGreaterThanOrEqualTo(0.995);
        assertThat(errors).as(study.wrong()).isGreaterThanOrEqualTo(0.995);
        assertThat(study.rms(Outcome::offsetError, fine)).isLessThanOrEqualTo(2e-4);
        assertThat(study.rms(Outcome::driftError, fine)).isLessThanOrEqualTo(2e-6);
        for (Predicate<Outcome> group : List.of(fine, coarse)) {
            // 90 to 98 % are aimed at; three standard deviations of the simulation are allowed for
            double slack = 3 * Math.sqrt(0.9 * 0.1 / study.count(group));
            assertThat(study.share(RecordingStudyTest::offsetInside, group)).isGreaterThanOrEqualTo(0.9 - slack);
            assertThat(study.share(RecordingStudyTest::driftInside, group)).isGreaterThanOrEqualTo(0.9 - slack);
        }
    }

    private static boolean offsetInside(Outcome o) {
        return Math.abs(o.offsetError()) <= 2 * o.offsetU();
    }

    private static boolean driftInside(Outcome o) {
        return Math.abs(o.driftError()) <= 2 * o.driftU();
    }

    private static void clocks(
            List<String> lines,
            RecordingStudy study,
            String name,
            Predicate<Outcome> group,
            String offsetDemand,
            String driftDemand) {
        row(lines, "clocks " + name + ": benches", "%.0f", (double) study.count(group), "");
        row(
                lines,
                "offset at mid-record, rms error, ms",
                "%.4f",
                1e3 * study.rms(Outcome::offsetError, group),
                offsetDemand);
        row(
                lines,
                "offset, rms of the stated standard uncertainty, ms",
                "%.4f",
                1e3 * study.rms(Outcome::offsetU, group),
                "");
        row(lines, "offset within 2 u", "%.4f", study.share(RecordingStudyTest::offsetInside, group), "0.90 to 0.98");
        row(lines, "drift, rms error, ppm", "%.3f", 1e6 * study.rms(Outcome::driftError, group), driftDemand);
        row(
                lines,
                "drift, rms of the stated standard uncertainty, ppm",
                "%.3f",
                1e6 * study.rms(Outcome::driftU, group),
                "");
        row(lines, "drift within 2 u", "%.4f", study.share(RecordingStudyTest::driftInside, group), "0.90 to 0.98");
    }

    private static void row(List<String> lines, String figure, String format, double value, String demand) {
        lines.add("| " + figure + " | " + String.format(Locale.ROOT, format, value) + " | " + demand + " |");
    }
}
