package slowproof.files.in;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import slowproof.trial.findings.BudgetLine;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Cycle;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Pass;
import slowproof.trial.findings.Reversal;

/** Invented readings; the expected values were computed with NumPy/SciPy by an independent script. */
class WorkedExampleTest {
    private static final double ARITHMETIC = 1e-9;
    private static final double DISTRIBUTIONS = 1e-6;

    private final Path folder = Path.of("src/test/resources/worked-example");
    private final Findings findings =
            Evaluation.of(TrialReader.read(folder.resolve("trial.yaml")).trial());
    private final JsonNode expected;

    WorkedExampleTest() throws Exception {
        expected = new ObjectMapper().readTree(folder.resolve("expected.json").toFile());
    }

    private static void close(double found, JsonNode wanted, double relative, String what) {
        double value = wanted.doubleValue();
        assertThat(found).as(what).isCloseTo(value, within(Math.max(relative * Math.abs(value), 1e-15)));
    }

    @Test
    void everyPassAgrees() {
        JsonNode wanted = expected.get("passes");
        assertThat(findings.passes()).hasSize(40).hasSize(wanted.size());
        for (int i = 0; i < wanted.size(); i++) {
            Pass pass = findings.passes().get(i);
            JsonNode row = wanted.get(i);
            assertThat(pass.series()).isEqualTo(row.get("series").asText());
            assertThat(pass.direction().key()).isEqualTo(row.get("direction").asText());
            close(pass.referenceMm(), row.get("reference_mm"), ARITHMETIC, "reference");
            close(pass.indicationMm(), row.get("indication_mm"), ARITHMETIC, "indication");
            close(pass.errorMm(), row.get("error_mm"), ARITHMETIC, "error");
            close(100 * pass.error(), row.get("error_pct"), ARITHMETIC, "relative error");
        }
    }

    @Test
    void everyCycleAgrees() {
        JsonNode wanted = expected.get("cycles");
        assertThat(findings.cycles()).hasSize(20).hasSize(wanted.size());
        for (int i = 0; i < wanted.size(); i++) {
            Cycle cycle = findings.cycles().get(i);
            // near zero the decimals of the readings set the tolerance, not the size of the closure
            assertThat(cycle.closureMm())
                    .isCloseTo(wanted.get(i).get("closure_mm").doubleValue(), within(1e-9));
        }
    }

    @Test
    void everyConditionAgrees() {
        JsonNode wanted = expected.get("conditions");
        assertThat(findings.conditions()).hasSize(12).hasSize(wanted.size());
        for (int i = 0; i < wanted.size(); i++) {
            agrees(findings.conditions().get(i), wanted.get(i));
        }
    }

    private static void agrees(Condition found, JsonNode row) {
        String what = row.get("material") + " " + row.get("speed_mm_s") + " " + row.get("direction");
        assertThat(found.key().material()).isEqualTo(row.get("material").asText());
        assertThat(found.key().speedMmPerS()).isEqualTo(row.get("speed_mm_s").doubleValue());
        assertThat(found.direction().key()).isEqualTo(row.get("direction").asText());
        assertThat(found.passes()).isEqualTo(row.get("passes").intValue());
        close(found.meanErrorMm(), row.get("mean_error_mm"), ARITHMETIC, what);
        close(100 * found.meanError(), row.get("mean_error_pct"), ARITHMETIC, what);
        close(100 * found.repeatability(), row.get("repeatability_pct"), ARITHMETIC, what);
        close(found.repeatabilityDegreesOfFreedom(), row.get("repeatability_degrees_of_freedom"), 0, what);
        close(
                100 * found.repeatabilityInterval().low(),
                row.at("/repeatability_interval_95_pct/0"),
                DISTRIBUTIONS,
                what);
        close(
                100 * found.repeatabilityInterval().high(),
                row.at("/repeatability_interval_95_pct/1"),
                DISTRIBUTIONS,
                what);
        close(100 * found.limit(), row.get("limit_pct"), ARITHMETIC, what);
        close(100 * found.standardUncertainty(), row.get("standard_uncertainty_pct"), ARITHMETIC, what);
        close(found.effectiveDegreesOfFreedom(), row.get("effective_degrees_of_freedom"), ARITHMETIC, what);
        close(found.coverageFactor(), row.get("coverage_factor"), DISTRIBUTIONS, what);
        close(100 * found.expandedUncertainty(), row.get("expanded_uncertainty_pct"), DISTRIBUTIONS, what);
        close(found.conformanceProbability(), row.get("conformance_probability"), DISTRIBUTIONS, what);
        assertThat(found.decision().key())
                .as(what)
                .isEqualTo(row.get("decision").asText());
        assertThat(found.passesOutside())
                .as(what)
                .isEqualTo(row.get("passes_outside").intValue());
        close(found.singlePassProbability(), row.get("single_pass_probability"), DISTRIBUTIONS, what);
        assertThat(found.singlePassDecision().key())
                .as(what)
                .isEqualTo(row.get("single_pass_decision").asText());
        List<BudgetLine> budget = found.budget();
        assertThat(budget).hasSize(row.get("budget").size());
        for (int i = 0; i < budget.size(); i++) {
            JsonNode line = row.get("budget").get(i);
            assertThat(budget.get(i).source().label())
                    .isEqualTo(line.get("source").asText());
            close(100 * budget.get(i).standardUncertainty(), line.get("standard_uncertainty_pct"), ARITHMETIC, what);
            close(budget.get(i).sharePercent(), line.get("share_pct"), ARITHMETIC, what);
        }
        if (row.has("reversal_pct")) {
            Reversal reversal = found.reversal();
            close(100 * reversal.difference(), row.get("reversal_pct"), ARITHMETIC, what);
            close(100 * reversal.interval().low(), row.at("/reversal_interval_95_pct/0"), DISTRIBUTIONS, what);
            close(100 * reversal.interval().high(), row.at("/reversal_interval_95_pct/1"), DISTRIBUTIONS, what);
        }
    }
}
