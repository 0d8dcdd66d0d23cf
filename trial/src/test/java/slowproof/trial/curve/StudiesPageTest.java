package slowproof.trial.curve;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class StudiesPageTest {
    @Test
    void everyStudyHasItsFiguresOnThePage() {
        for (String block : List.of(
                "standard ladder",
                "standard ladder, classes",
                "ladder 1.5",
                "two cycles",
                "statuses",
                "failing assumptions",
                "variance components",
                "thin trials",
                "thin trials, as stated",
                "decisions",
                "promises of a pass",
                "recordings and readings",
                "recordings")) {
            assertThat(StudiesPage.lines(block)).as(block).hasSizeGreaterThan(2);
        }
    }
}
