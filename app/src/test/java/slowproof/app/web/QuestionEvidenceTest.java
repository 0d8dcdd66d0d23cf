package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.Archive;
import slowproof.archive.Event;
import slowproof.archive.EventKind;
import slowproof.archive.Near;
import slowproof.archive.RecordedEvent;
import slowproof.archive.TrialIndex;
import slowproof.archive.summary.Attention;
import slowproof.archive.summary.SurfaceSummary;
import slowproof.archive.summary.TrialSummary;
import slowproof.trial.evidence.Distance;
import slowproof.trial.evidence.Inquiry;
import slowproof.trial.findings.FloorSpeed;
import slowproof.trial.findings.Standing;

class QuestionEvidenceTest {
    private static final long SEED = 20260302;
    private static final int TRIALS = 400;
    private static final int INQUIRIES = 300;
    private static final List<String> NAMES = List.of(
            "acoustic felt",
            "felt, acoustic",
            "felt",
            "felt grey",
            "grey felt 12 mm",
            "glass fabric",
            "fabric",
            "clear film",
            "film",
            "film clear 0.1",
            "paper",
            "");

    @TempDir
    Path folder;

    private final SplittableRandom random = new SplittableRandom(SEED);

    private <T> T any(List<T> list) {
        return list.get(random.nextInt(list.size()));
    }

    /** Few different figures, so that many lie equally near and the order among them counts. */
    private SurfaceSummary surface() {
        double slowest = any(List.of(10.0, 20.0, 50.0));
        Double acceleration = any(List.of(true, true, false)) ? any(List.of(100.0, 500.0)) : null;
        double shortest = any(List.of(250.0, 900.0));
        return new SurfaceSummary(
                any(NAMES),
                Standing.HOLDS,
                FloorSpeed.Status.HOLDS_THROUGHOUT,
                slowest,
                slowest * any(List.of(2.0, 8.0)),
                null,
                slowest,
                null,
                acceleration,
                acceleration,
                shortest,
                shortest,
                0.001,
                0.0,
                true,
                List.of());
    }

    private void fill(Archive archive, TrialIndex index) {
        Map<String, List<RecordedEvent>> trials = new LinkedHashMap<>();
        List<TrialSummary> summaries = new ArrayList<>();
        for (int i = 0; i < TRIALS; i++) {
            String id = "near" + (10_000_000 + i);
            Instant at = Instant.parse("2026-03-02T08:00:00Z").plusSeconds(random.nextInt(50));
            trials.put(id, List.of(new RecordedEvent(new Event(1, at, EventKind.STARTED, Map.of()), "")));
            summaries.add(new TrialSummary(id, 1, Attention.NONE, 4, "", List.of(surface(), surface())));
        }
        archive.takeIn(trials);
        index.keep(summaries);
    }

    private Inquiry inquiry() {
        double slowest = any(List.of(5.0, 20.0, 60.0));
        Double acceleration = any(List.of(true, false)) ? any(List.of(20.0, 300.0)) : null;
        return new Inquiry(
                any(List.of("acoustic felt", "felt", "glas fabric", "clear film", "velvet", "paper", "")),
                slowest,
                any(List.of(true, false)) ? slowest * 4 : null,
                acceleration,
                acceleration,
                any(List.of(100.0, 900.0, 5000.0)),
                1);
    }

    @Test
    void whatIsFoundWithoutReadingMostIsWhatEverythingGives() {
        try (Archive archive = Archive.open(folder, Clock.systemUTC())) {
            TrialIndex index = archive.index("test");
            fill(archive, index);
            List<Near> everything = index.near(index.materials().keySet());
            assertThat(everything).hasSize(2 * TRIALS);
            for (int i = 0; i < INQUIRIES; i++) {
                Inquiry inquiry = inquiry();
                List<String> expected = everything.stream()
                        .map(near -> new QuestionEvidence.Found(near, Distance.of(inquiry, near.evidence())))
                        .sorted(QuestionEvidence.Found.ORDER)
                        .limit(QuestionEvidence.SHOWN)
                        .map(found -> found.near().trial() + "/" + found.near().place())
                        .toList();
                assertThat(QuestionEvidence.of(inquiry, index))
                        .as("seed %d, inquiry %d: %s", SEED, i, inquiry)
                        .extracting(one ->
                                one.tried().entry().id() + "/" + one.tried().place())
                        .isEqualTo(expected);
            }
        }
    }
}
