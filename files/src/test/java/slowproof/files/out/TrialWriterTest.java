package slowproof.files.out;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.files.in.TrialReader;
import slowproof.metrology.conformity.DecisionRule;
import slowproof.trial.Certificate;
import slowproof.trial.Exclusion;
import slowproof.trial.Limit;
import slowproof.trial.LimitPreset;
import slowproof.trial.Piece;
import slowproof.trial.ReadingMode;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.Setup;
import slowproof.trial.StatedAccuracy;
import slowproof.trial.TapeClass;
import slowproof.trial.Trial;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.DemoPlant;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.SimulatedTrial;

class TrialWriterTest {
    @TempDir
    Path folder;

    private Trial writtenAndRead(Trial trial) throws IOException {
        TrialWriter.write(trial, "a remark", folder);
        return TrialReader.read(folder.resolve("trial.yaml")).trial();
    }

    @Test
    void aTrialReadBackGivesTheSameFindings() throws IOException {
        BenchPlan plan = DemoPlant.plan(null);
        Trial trial = SimulatedTrial.of("demo", plan, Bench.read(plan, RandomStreams.of(7)), Limit.of(0.0015, 0.05));
        Findings before = Evaluation.of(trial);
        Findings after = Evaluation.of(writtenAndRead(trial));
        assertThat(after.passes()).isEqualTo(before.passes());
        assertThat(after.conditions()).isEqualTo(before.conditions());
        for (int i = 0; i < before.materials().size(); i++) {
            assertThat(after.materials().get(i).floor())
                    .isEqualTo(before.materials().get(i).floor());
            assertThat(after.materials().get(i).passScatterMm())
                    .isEqualTo(before.materials().get(i).passScatterMm());
        }
    }

    @Test
    void everySettingComesBack() throws IOException {
        SourcePosition at = SourcePosition.ofFile("x");
        Piece piece = new Piece("p, \"1\"", "felt # grey", 50, 2500, 2501.25, 2, 1.5, at);
        Trial trial = new Trial(
                "a \"title\": with \\ signs",
                new Sensor("s", "1", 0.05, 16, 0.1),
                new Reference(
                        "tape",
                        Reference.Kind.TAPE,
                        null,
                        null,
                        2,
                        TapeClass.II,
                        null,
                        new Certificate("K-\"1\"", "a laboratory, invented", "2026-01-12", "")),
                LimitPreset.LENGTH_CLASS_II.limit(2000, 750.0),
                new StatedAccuracy(0.0005, 150),
                new Setup("A", "1.2", 120.0, 0.3, 5.0, 0.01, 21.0, 2.0, 11.5, 0.001, "mean over 4 ms", "clean: yes"),
                DecisionRule.EXPANDED,
                ReadingMode.ZEROED,
                List.of(),
                List.of(),
                List.of(piece, new Piece("p2", "felt # grey", 50, 2500, 2500.5, 2, null, at)),
                List.of(new Exclusion("pieces/p2", "cable: \"caught\"", at)));
        Trial back = writtenAndRead(trial);
        assertThat(back.title()).isEqualTo(trial.title());
        assertThat(back.sensor()).isEqualTo(trial.sensor());
        assertThat(back.reference()).isEqualTo(trial.reference());
        assertThat(back.limit()).isEqualTo(trial.limit());
        assertThat(back.stated()).isEqualTo(trial.stated());
        assertThat(back.setup()).isEqualTo(trial.setup());
        assertThat(back.rule()).isEqualTo(trial.rule());
        assertThat(back.mode()).isEqualTo(trial.mode());
        assertThat(back.pieces())
                .usingRecursiveFieldByFieldElementComparatorIgnoringFields("at")
                .isEqualTo(trial.pieces());
        assertThat(back.exclusions())
                .usingRecursiveFieldByFieldElementComparatorIgnoringFields("at")
                .isEqualTo(trial.exclusions());
    }
}
