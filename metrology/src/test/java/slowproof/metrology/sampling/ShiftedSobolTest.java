package slowproof.metrology.sampling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Arrays;
import org.apache.commons.rng.UniformRandomProvider;
import org.junit.jupiter.api.Test;

class ShiftedSobolTest {

    private static double[][] points(ShiftedSobol sobol, double[] shift) {
        double[][] points = new double[sobol.size()][sobol.dimensions()];
        for (int i = 0; i < points.length; i++) {
            sobol.point(i, shift, points[i]);
        }
        return points;
    }

    @Test
    void firstPointsAreThoseOfTheSequence() {
        // two dimensions: (0,0), (1/2,1/2), (3/4,1/4), (1/4,3/4) (Sobol, from memory; any text on the subject)
        double[][] points = points(ShiftedSobol.of(2, 4), new double[2]);
        assertThat(points[0]).containsExactly(0x1p-54, 0x1p-54);
        assertThat(points[1]).containsExactly(0.5, 0.5);
        assertThat(points[2]).containsExactly(0.75, 0.25);
        assertThat(points[3]).containsExactly(0.25, 0.75);
    }

    @Test
    void shiftGoesRoundTheCube() {
        double[][] points = points(ShiftedSobol.of(2, 4), new double[] {0.5, 0.875});
        assertThat(points[1]).containsExactly(0x1p-54, 0.375);
        assertThat(points[2]).containsExactly(0.25, 0.125);
        assertThat(points[3]).containsExactly(0.75, 0.625);
    }

    @Test
    void shiftedPointsStayInsideAndFarMoreEvenThanRandomOnes() {
        UniformRandomProvider random = BlockStreams.of(3).next();
        ShiftedSobol sobol = ShiftedSobol.of(5, 256);
        for (int trial = 0; trial < 20; trial++) {
            double[] shift = sobol.randomShift(random, new double[5]);
            assertThat(shift).hasSize(5);
            double[][] even = points(sobol, shift);
            double[][] scattered = new double[256][];
            for (int i = 0; i < 256; i++) {
                assertThat(Arrays.stream(even[i])).allMatch(u -> u > 0 && u < 1);
                scattered[i] = sobol.randomShift(random, new double[5]);
            }
            // random points: about (1.25^5 - (13/12)^5)/256 = 0.0061
            assertThat(Discrepancy.centred(even)).isLessThan(0.2 * Discrepancy.centred(scattered));
        }
    }

    @Test
    void sizesAreChecked() {
        assertThatIllegalArgumentException().isThrownBy(() -> ShiftedSobol.of(0, 4));
        assertThatIllegalArgumentException().isThrownBy(() -> ShiftedSobol.of(1001, 4));
        assertThatIllegalArgumentException().isThrownBy(() -> ShiftedSobol.of(2, 0));
        assertThat(ShiftedSobol.of(1000, 1).dimensions()).isEqualTo(1000);
        assertThat(ShiftedSobol.of(1, 1).size()).isEqualTo(1);
    }
}
