package slowproof.files.cache;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class KeptDrawsTest {
    private static final double[] FROM = {1, 2.5, Double.longBitsToDouble(7), -0.0};
    private static final double[] DRAWN = {0.1, -3e-9, Double.NEGATIVE_INFINITY, 42};

    @TempDir
    Path folder;

    private KeptDraws draws(String program) {
        return new KeptDraws(CacheFolder.in(folder, 1L << 20, program));
    }

    private List<Path> files() throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.toList();
        }
    }

    @Test
    void drawsComeBackAsTheyWere() throws IOException {
        assertThat(draws("a").find(FROM)).isNull();
        draws("a").keep(FROM, DRAWN);
        assertThat(draws("a").find(FROM)).containsExactly(DRAWN);
        assertThat(files()).hasSize(1);
    }

    @Test
    void otherNumbersAndOtherProgramsHaveDrawsOfTheirOwn() {
        draws("a").keep(FROM, DRAWN);
        assertThat(draws("b").find(FROM)).isNull();
        for (int i = 0; i < FROM.length; i++) {
            double[] other = FROM.clone();
            other[i] = Math.nextUp(other[i]);
            assertThat(draws("a").find(other)).isNull();
        }
        assertThat(draws("a").find(new double[] {1, 2.5})).isNull();
    }

    @Test
    void spoiledDrawsAreNotUsed() throws IOException {
        draws("a").keep(FROM, DRAWN);
        Path file = files().get(0);
        byte[] bytes = Files.readAllBytes(file);
        bytes[bytes.length - 3] ^= 1;
        Files.write(file, bytes);
        assertThat(draws("a").find(FROM)).isNull();
        assertThat(files()).isEmpty();
    }
}
