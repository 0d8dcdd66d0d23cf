package slowproof.trial.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import slowproof.trial.curve.StudiesPage;

/** The floor that findings of thin trials state: the bracket between tested speeds. */
class ThinFloorStudyTest {
    private static final long SEED = Long.getLong("slowproof.seed", 20_261_127);
    private static final int USUAL = 2000;
    private static final int TRIALS = Integer.getInteger("slowproof.trials", USUAL);

    @Test
    void aFewBracketsHoldTheTrueFloor() {
        ThinFloorStudy study = ThinFloorStudy.run(SEED + 1, 300);
        assertThat(study.right(FloorSpeed.Status.BRACKET)).as(study.figures()).isGreaterThanOrEqualTo(0.95);
    }

    @Test
    @Tag("long")
    void bracketsHoldTheTrueFloor() {
        ThinFloorStudy study = ThinFloorStudy.run(SEED, TRIALS);
        List<String> lines = new ArrayList<>(List.of("| stated | share of trials | true |", "|---|---|---|"));
        for (FloorSpeed.Status status : FloorSpeed.Status.values()) {
            if (study.shareOf(status) > 0) {
                lines.add(String.format(
                        Locale.ROOT, "| %s | %.3f | %.4f |", status.key(), study.shareOf(status), study.right(status)));
            }
        }
        lines.add(String.format(Locale.ROOT, "| speeds said to hold do hold | 1.000 | %.4f |", study.held()));
        if (TRIALS >= USUAL) {
            StudiesPage.write("thin trials, as stated", lines);
        }
        assertThat(study.right(FloorSpeed.Status.BRACKET)).as(study.figures()).isGreaterThanOrEqualTo(0.95);
    }
}
