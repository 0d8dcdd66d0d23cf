package slowproof.trial.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import slowproof.trial.Series;
import slowproof.trial.Standstill;

class OutlierMarksTest {
    private static Series forward(long... errorsHundredths) {
        List<Standstill> rows = new ArrayList<>();
        long reference = 0;
        long reading = 0;
        rows.add(RandomTrials.row(0, 0));
        for (long error : errorsHundredths) {
            reference += 60_000;
            reading += 60_000 + error;
            rows.add(RandomTrials.row(reference, reading));
        }
        return new Series("s", "material", "", 50, 500.0, rows);
    }

    @Test
    void aFarPassIsMarkedAndStillCounts() {
        Findings findings = Evaluation.of(RandomTrials.of(List.of(forward(20, 21, 19, 20, 22, 18, 20, 90))));
        assertThat(findings.passes().get(7).flags()).containsExactly(Flag.OUTLIER);
        assertThat(findings.passes().subList(0, 7))
                .allSatisfy(pass -> assertThat(pass.flags()).isEmpty());
        assertThat(findings.conditions().get(0).passes()).isEqualTo(8);
    }

    @Test
    void equalPassesAreNoOutliersAndNotPerfect() {
        Findings findings = Evaluation.of(RandomTrials.of(List.of(forward(20, 20, 20, 20, 20, 20))));
        assertThat(findings.passes())
                .allSatisfy(pass -> assertThat(pass.flags()).isEmpty());
        Condition condition = findings.conditions().get(0);
        assertThat(condition.repeatability()).isEqualTo(0);
        assertThat(condition.flags()).contains(Flag.SCATTER_BELOW_RESOLUTION);
        assertThat(condition.standardUncertainty()).isGreaterThan(0);
    }
}
