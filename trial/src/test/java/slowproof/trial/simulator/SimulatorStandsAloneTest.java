package slowproof.trial.simulator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The simulator judges the evaluation, so it must not share code with it; plain trial data it may fill in. */
class SimulatorStandsAloneTest {
    private static final Pattern PROJECT_NAME = Pattern.compile("slowproof(?:\\.\\w+)+");
    private static final Pattern OWN_OR_PLAIN_DATA = Pattern.compile("slowproof\\.trial\\.simulator(?:\\.\\w+)*"
            + "|slowproof\\.trial\\.[A-Z]\\w*"
            + "|slowproof\\.trial\\.input\\.SourcePosition"
            + "|slowproof\\.metrology\\.conformity\\.DecisionRule");

    @Test
    void sourcesNameNoEvaluation() throws IOException {
        Path folder = Path.of(System.getProperty("slowproof.root", ".."))
                .resolve("trial/src/main/java/slowproof/trial/simulator");
        List<Path> sources;
        try (Stream<Path> found = Files.list(folder)) {
            sources = found.sorted().toList();
        }
        assertThat(sources).hasSizeGreaterThan(10);
        for (Path source : sources) {
            Matcher name = PROJECT_NAME.matcher(Files.readString(source));
            while (name.find()) {
                assertThat(name.group()).as(source.toString()).matches(OWN_OR_PLAIN_DATA);
            }
        }
    }
}
