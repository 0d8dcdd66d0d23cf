package slowproof.trial.scatter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.trial.scatter.VarianceComponents.Method;
import slowproof.trial.scatter.VarianceComponents.SplitReason;

class ComponentFitTest {
    @Test
    void balancedSeriesGiveTheAnalysisOfVariance() {
        // three series of four forward passes: means 1, 4, 7, deviations -0.3, -0.1, 0.1, 0.3 in each.
        // Within: 3 * 0.2 / 9 = 0.0666...; between: (4 * 9 - 0.0666...) / 4 (one-way random effects, as in GUM H.5)
        List<PassError> passes = new ArrayList<>();
        for (int s = 0; s < 3; s++) {
            for (int i = 0; i < 4; i++) {
                passes.add(pass("s" + s, i, 1, 1 + 3 * s + 0.2 * (i - 1.5), 1000, 1));
            }
        }
        VarianceComponents components = ComponentFit.of(passes, 0);
        double within = 0.6 / 9;
        assertThat(components.method()).isEqualTo(Method.RESTRICTED_LIKELIHOOD);
        assertThat(components.passScatterMm()).isCloseTo(Math.sqrt(within), within(1e-12));
        assertThat(components.passDegreesOfFreedom()).isEqualTo(9);
        assertThat(components.seriesScatterMm().value()).isCloseTo(Math.sqrt(9 - within / 4), within(1e-4));
        assertThat(components.startScatterMm()).isNull();
        assertThat(components.splitReason()).isEqualTo(SplitReason.ONE_STROKE);
    }

    @Test
    void oneStrokeDoesNotSplitStartFromTravel() {
        VarianceComponents components = ComponentFit.of(passes(1, 0.03, 0.03, 0, 10, 900, 1100), 0);
        assertThat(components.passScatterMm()).isNotNull();
        assertThat(components.startScatterMm()).isNull();
        assertThat(components.travelScatterMmPerSqrtM()).isNull();
        assertThat(components.splitReason()).isEqualTo(SplitReason.ONE_STROKE);
        assertThat(components.seriesScatterMm()).isNull();
    }

    @Test
    void twoStrokesSplitStartFromTravel() {
        VarianceComponents components = ComponentFit.of(passes(2, 0.03, 0.05, 0, 400, 100, 3000), 0.05 * 0.05 / 12);
        assertThat(components.splitReason()).isNull();
        assertThat(components.startScatterMm().value()).isCloseTo(0.03, within(0.004));
        assertThat(components.travelScatterMmPerSqrtM().value()).isCloseTo(0.05, within(0.005));
        assertThat(components.startScatterMm().low()).isLessThan(0.03);
        assertThat(components.startScatterMm().high()).isGreaterThan(0.03);
        assertThat(components.passVarianceMm2(1, 3000, 0.05 * 0.05 / 12))
                .isCloseTo(0.03 * 0.03 + 3 * 0.05 * 0.05, within(0.0015));
    }

    @Test
    void stopAndGoSplitsStartFromTravel() {
        List<PassError> passes = new ArrayList<>();
        SplittableRandom random = new SplittableRandom(5);
        for (int i = 0; i < 300; i++) {
            passes.add(pass("one" + i / 30, i % 30, 1, 0.04 * gauss(random), 1000, 1));
            passes.add(pass("ten" + i / 30, i % 30, 1, 0.04 * Math.sqrt(10) * gauss(random), 1000, 10));
        }
        VarianceComponents components = ComponentFit.of(passes, 0);
        assertThat(components.splitReason()).isNull();
        assertThat(components.startScatterMm().value()).isCloseTo(0.04, within(0.004));
        assertThat(components.travelScatterMmPerSqrtM().value()).isLessThan(0.02);
        assertThat(components.travelScatterMmPerSqrtM().low()).isZero();
    }

    @Test
    void absentComponentIsZeroWithAnUpperBound() {
        VarianceComponents components = ComponentFit.of(passes(7, 0.05, 0, 0, 60, 100, 1000), 0);
        assertThat(components.travelScatterMmPerSqrtM().low()).isLessThan(0.02);
        assertThat(components.travelScatterMmPerSqrtM().high()).isBetween(0.005, 0.05);
    }

    @Test
    void readingsOfAnAlternatingSeriesAreNotTakenForScatter() {
        // no scatter at all but readings: sd of a pass is sqrt(2) of a reading, shared readings known
        List<PassError> passes = new ArrayList<>();
        SplittableRandom random = new SplittableRandom(8);
        double reading = 0.02;
        for (int s = 0; s < 60; s++) {
            double before = reading * gauss(random);
            for (int i = 0; i < 10; i++) {
                int direction = i % 2 == 0 ? 1 : -1;
                double next = reading * gauss(random);
                passes.add(pass("s" + s, i, direction, direction * (next - before), s % 2 == 0 ? 100 : 1000, 1));
                before = next;
            }
        }
        VarianceComponents components = ComponentFit.of(passes, reading * reading);
        assertThat(components.passScatterMm()).isCloseTo(reading * Math.sqrt(2), within(0.002));
        assertThat(components.startScatterMm().value()).isLessThan(0.008);
        assertThat(components.seriesScatterMm().value()).isLessThan(0.004);
    }

    @Test
    void nothingRepeatedGivesNothing() {
        VarianceComponents components =
                ComponentFit.of(List.of(pass("a", 0, 1, 0.1, 100, 1), pass("b", 0, 1, 0.2, 1000, 1)), 0);
        assertThat(components.passScatterMm()).isNull();
        assertThat(components.passDegreesOfFreedom()).isZero();
        assertThat(components.splitReason()).isEqualTo(SplitReason.NO_REPEATS);
        assertThat(components.method()).isEqualTo(Method.POOLED);
    }

    @Test
    void allReadingsEqualGiveZeroAndNoSplit() {
        List<PassError> passes = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            passes.add(pass("a", i, 1, 0.1, 100, 1));
            passes.add(pass("b", i, 1, 0.1, 1000, 1));
        }
        VarianceComponents components = ComponentFit.of(passes, 0);
        assertThat(components.passScatterMm()).isZero();
        assertThat(components.startScatterMm()).isNull();
    }

    @Test
    void scatterDoesNotKnowTheZeroPointOfAnError() {
        List<PassError> passes = passes(9, 0.03, 0.05, 0.02, 40, 100, 3000);
        List<PassError> moved = passes.stream()
                .map(p -> pass(p.series(), p.indexInSeries(), p.direction(), p.errorMm() + 5, p.travelMm(), 1))
                .toList();
        VarianceComponents plain = ComponentFit.of(passes, 0.0002);
        VarianceComponents shifted = ComponentFit.of(moved, 0.0002);
        assertThat(shifted.startScatterMm().value())
                .isCloseTo(plain.startScatterMm().value(), within(1e-5));
        assertThat(shifted.travelScatterMmPerSqrtM().value())
                .isCloseTo(plain.travelScatterMmPerSqrtM().value(), within(1e-5));
    }

    @Test
    void unequalScatterIsNoticed() {
        double[] squares = {9 * 0.0001, 9 * 0.0001, 9 * 0.0100};
        assertThat(WithinScatter.pooled(squares, new int[] {9, 9, 9}, 0).equalityProbability())
                .isLessThan(1e-6);
        double[] alike = {9 * 0.0001, 9 * 0.00012, 9 * 0.00009};
        assertThat(WithinScatter.pooled(alike, new int[] {9, 9, 9}, 0).equalityProbability())
                .isGreaterThan(0.5);
        // one step of the readings in one condition of three is nothing
        double[] oneStep = {1e-12, 0.005, 0};
        assertThat(WithinScatter.pooled(oneStep, new int[] {1, 1, 1}, 0).equalityProbability())
                .isLessThan(0.01);
        assertThat(WithinScatter.pooled(oneStep, new int[] {1, 1, 1}, 0.01 / 6).equalityProbability())
                .isGreaterThan(0.5);
        assertThatIllegalArgumentException().isThrownBy(() -> WithinScatter.pooled(new double[] {0}, new int[] {0}, 0));
    }

    /** Series to and fro at two strokes, 10 passes each, with true start, travel and series scatter. */
    static List<PassError> passes(
            int seed, double start, double travel, double series, int perStroke, double shortMm, double longMm) {
        SplittableRandom random = new SplittableRandom(seed);
        List<PassError> out = new ArrayList<>();
        for (double stroke : new double[] {shortMm, longMm}) {
            double offset = 0;
            for (int i = 0; i < perStroke; i++) {
                if (i % 10 == 0) {
                    offset = series * gauss(random);
                }
                double error = offset + start * gauss(random) + travel * Math.sqrt(stroke / 1000) * gauss(random);
                out.add(pass(stroke + "/" + i / 10, i % 10, i % 2 == 0 ? 1 : -1, error, stroke, 1));
            }
        }
        return out;
    }

    private static PassError pass(
            String series, int index, int direction, double errorMm, double travelMm, int starts) {
        PassError one = PassError.ofMove(
                series + "/" + (index + 1),
                series,
                index,
                index > 0,
                direction,
                errorMm,
                travelMm,
                100,
                Double.NaN,
                Double.NaN);
        return new PassError(
                one.id(),
                series,
                index,
                index > 0,
                direction,
                errorMm,
                travelMm,
                100,
                Double.NaN,
                starts,
                Double.NaN,
                one.spectrum());
    }

    private static double gauss(SplittableRandom random) {
        return Math.sqrt(-2 * Math.log(1 - random.nextDouble())) * Math.cos(2 * Math.PI * random.nextDouble());
    }
}
