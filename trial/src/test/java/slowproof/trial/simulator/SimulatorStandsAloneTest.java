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

/** The simulator judges the evaluation, so it must not share code with it. */
class SimulatorStandsAloneTest {
    private static final Pattern PROJECT_NAME = Pattern.compile("slowproof\\.[a-z]+(?:\\.[a-z]+)?");

    @Test
    void sourcesNameNoOtherPackageOfTheProject() throws IOException {
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
                assertThat(name.group()).as(source.toString()).isEqualTo("slowproof.trial.simulator");
            }
        }
    }
}
