package slowproof.trial.dropout;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Objects;
import org.junit.jupiter.api.Test;

class FirthLogisticTest {
    @Test
    void coefficientsAreThoseOfAGeneralMaximiser() throws IOException {
        // written by src/test/reference/crosscheck.py with SciPy
        double[] x = values("logistic_x");
        double[] outside = values("logistic_outside");
        double[] expected = values("logistic_coefficients");
        boolean[] bad = new boolean[x.length];
        for (int i = 0; i < x.length; i++) {
            bad[i] = outside[i] == 1;
        }
        FirthLogistic fit = FirthLogistic.fit(x, bad);
        assertThat(fit.intercept()).isCloseTo(expected[0], within(1e-6));
        assertThat(fit.slope()).isCloseTo(expected[1], within(1e-6));
    }

    @Test
    void separatedClassesKeepTheSlopeFinite() {
        FirthLogistic fit = FirthLogistic.fit(new double[] {1, 2, 3, 4}, new boolean[] {false, false, true, true});
        assertThat(fit.slope()).isBetween(0.5, 10.0);
        assertThat(-fit.intercept() / fit.slope()).isCloseTo(2.5, within(1e-6));
    }

    private static double[] values(String name) throws IOException {
        try (InputStream in = Objects.requireNonNull(
                        FirthLogisticTest.class.getResourceAsStream("/slowproof/trial/curve/crosscheck.csv"));
                BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            String line = lines.lines()
                    .filter(l -> l.startsWith(name + ","))
                    .findFirst()
                    .orElseThrow();
            return Arrays.stream(line.split(","))
                    .skip(1)
                    .mapToDouble(Double::parseDouble)
                    .toArray();
        }
    }
}
