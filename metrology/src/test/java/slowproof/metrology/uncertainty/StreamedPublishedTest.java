package slowproof.metrology.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.SharedStateContinuousSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Interval;

/**
 * The examples of JCGM 101:2008, 9.2 to 9.4, through the engine of the forecasts with its stopping rule (7.9). Printed
 * values from memory of that document; exact values worked out from the distributions are named where they differ.
 * An adaptive result is allowed its own numerical tolerance beside that of the printed value.
 */
class StreamedPublishedTest {
    private static final long MOST = 200_000_000;

    /** A model that draws its inputs. */
    private interface Drawn {
        double value(UniformRandomProvider random, SharedStateContinuousSampler normal);
    }

    private static StreamedMonteCarlo.Result run(
            Drawn model, IntervalKind kind, int digits, Interval range, long seed) {
        StreamedSource source = random -> {
            SharedStateContinuousSampler normal = ZigguratSampler.NormalizedGaussian.of(random);
            return (values, companions) -> {
                for (int i = 0; i < values.length; i++) {
                    values[i] = model.value(random, normal);
                    companions[i] = -values[i];
                }
            };
        };
        StreamedMonteCarlo.Result result = StreamedMonteCarlo.run(
                source,
                new StreamedMonteCarlo.Plan(
                        seed, 2, 0.95, kind, digits, MOST, range, new Interval(-Double.MAX_VALUE, Double.MAX_VALUE)));
        assertThat(result.stable()).isTrue();
        assertThat(result.companionMean()).isCloseTo(-result.mean(), within(1e-9));
        return result;
    }

    private static double rectangular(UniformRandomProvider random, double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    /** 9.2.2: four standard normal inputs; printed y = 0.00, u = 2.00, interval -3.92 to 3.92. */
    @Test
    void sumOfFourNormals() {
        Drawn model = (random, normal) -> normal.sample() + normal.sample() + normal.sample() + normal.sample();
        StreamedMonteCarlo.Result found = run(model, IntervalKind.SYMMETRIC, 3, new Interval(-16, 16), 1);
        // u has three digits, 2.00: numerical tolerance 0.005
        assertThat(found.mean()).isCloseTo(0, within(0.005));
        assertThat(found.standardDeviation()).isCloseTo(2, within(0.005));
        assertThat(found.interval().low()).isCloseTo(-3.92, within(0.005 + 0.005));
        assertThat(found.interval().high()).isCloseTo(3.92, within(0.005 + 0.005));
    }

    /** 9.2.3: four rectangular inputs of unit variance; printed u = 2.00, interval -3.88 to 3.88. */
    @Test
    void sumOfFourRectangulars() {
        double half = Math.sqrt(3);
        Drawn model = (random, normal) -> rectangular(random, -half, half)
                + rectangular(random, -half, half)
                + rectangular(random, -half, half)
                + rectangular(random, -half, half);
        StreamedMonteCarlo.Result found = run(model, IntervalKind.SYMMETRIC, 3, new Interval(-7, 7), 2);
        assertThat(found.mean()).isCloseTo(0, within(0.005));
        assertThat(found.standardDeviation()).isCloseTo(2, within(0.005));
        // closed form of the end: 2 sqrt 3 (2 - (3/5)^(1/4)) = 3.8794
        double end = 2 * Math.sqrt(3) * (2 - Math.pow(0.6, 0.25));
        assertThat(end).isCloseTo(3.88, within(0.005));
        assertThat(found.interval().low()).isCloseTo(-3.88, within(0.005 + 0.005));
        assertThat(found.interval().high()).isCloseTo(3.88, within(0.005 + 0.005));
    }

    /**
     * 9.2.4: as before with one of the rectangular inputs ten times as wide; printed u = 10.1, symmetric interval -17.0
     * to 17.0, where the law of propagation gives 19.9.
     */
    @Test
    void oneRectangularTenTimesAsWide() {
        double half = Math.sqrt(3);
        Drawn model = (random, normal) -> rectangular(random, -half, half)
                + rectangular(random, -half, half)
                + rectangular(random, -half, half)
                + rectangular(random, -10 * half, 10 * half);
        StreamedMonteCarlo.Result found = run(model, IntervalKind.SYMMETRIC, 3, new Interval(-25, 25), 3);
        assertThat(found.standardDeviation()).isCloseTo(10.1, within(0.05 + 0.05));
        assertThat(found.interval().low()).isCloseTo(-17.0, within(0.05 + 0.05));
        assertThat(found.interval().high()).isCloseTo(17.0, within(0.05 + 0.05));
    }

    /**
     * 9.3: a mass in air, mg and kg/m3; printed y = 1.2341, u = 0.0754, shortest interval 1.0834 to 1.3825. The density is
     * flat on top, so both ends of a shortest interval move together by about 0.001 from run to run.
     */
    @Test
    void massInAir() {
        Drawn model = (random, normal) -> {
            double reference = 0.050 * normal.sample();
            double small = 1.234 + 0.020 * normal.sample();
            double air = rectangular(random, 1.10, 1.30);
            double weight = rectangular(random, 7000, 9000);
            double standard = rectangular(random, 7950, 8050);
            return reference + small + (100_000 + reference + small) * (air - 1.2) * (1 / weight - 1 / standard);
        };
        for (IntervalKind kind : IntervalKind.values()) {
            StreamedMonteCarlo.Result found = run(model, kind, 2, new Interval(0.6, 1.9), 4);
            // two digits of u, 0.075: numerical tolerance 0.0005
            assertThat(found.mean()).isCloseTo(1.2341, within(0.0005));
            assertThat(found.standardDeviation()).isCloseTo(0.0754, within(0.0005));
            assertThat(found.interval().low()).isCloseTo(1.0834, within(0.002));
            assertThat(found.interval().high()).isCloseTo(1.3825, within(0.002));
        }
    }

    /** 9.4.2.2: the loss at x1 = 0 in millionths; printed y = 50, u = 50, shortest interval 0 to 150. */
    @Test
    void comparisonLossAtNothing() {
        StreamedMonteCarlo.Result found = loss(0, 1600, 5);
        assertThat(found.mean()).isCloseTo(50, within(0.5 + 0.5));
        assertThat(found.standardDeviation()).isCloseTo(50, within(0.5 + 0.5));
        assertThat(found.interval().low()).isCloseTo(0, within(0.5));
        // two squared normals of equal spread are exponential: 50 ln 20 = 149.79
        assertThat(found.interval().high()).isCloseTo(50 * Math.log(20), within(0.5));
    }

    /** 9.4.2.2: at x1 = 0.010; printed y = 150, u = 112, shortest interval 0 to 367 (366.0 exactly). */
    @Test
    void comparisonLossAtOneHundredth() {
        StreamedMonteCarlo.Result found = loss(0.010, 2200, 6);
        assertThat(found.mean()).isCloseTo(150, within(0.5));
        assertThat(found.standardDeviation()).isCloseTo(112, within(0.5 + 0.5));
        assertThat(found.interval().low()).isCloseTo(0, within(0.5));
        assertThat(found.interval().high()).isCloseTo(367, within(2.0));
    }

    /**
     * 9.4.2.2: at x1 = 0.050; printed y = 2551, u = 502, shortest interval 1590 to 3543 (1593.6 to 3548.6 exactly). The
     * width hardly changes near the shortest, so single runs scatter; the mean of twelve is held to the values.
     */
    @Test
    void comparisonLossAtFiveHundredths() {
        int runs = 12;
        StreamedMonteCarlo.Result[] all = new StreamedMonteCarlo.Result[runs];
        for (int i = 0; i < runs; i++) {
            all[i] = loss(0.050, 9000, 100 + i);
        }
        assertThat(mean(all, StreamedMonteCarlo.Result::mean)).isCloseTo(2551, within(2.0));
        assertThat(mean(all, StreamedMonteCarlo.Result::standardDeviation)).isCloseTo(502, within(1.0));
        assertThat(mean(all, r -> r.interval().low())).isCloseTo(1593.6, within(5.0));
        assertThat(mean(all, r -> r.interval().high())).isCloseTo(3548.6, within(5.0));
        assertThat(mean(all, r -> r.interval().width())).isCloseTo(3543 - 1590, within(6.0));
    }

    private static double mean(StreamedMonteCarlo.Result[] all, ToDoubleFunction<StreamedMonteCarlo.Result> of) {
        double sum = 0;
        for (StreamedMonteCarlo.Result one : all) {
            sum += of.applyAsDouble(one) / all.length;
        }
        return sum;
    }

    /** Two normal inputs, x1 and 0, each with u = 0.005; Y = X1^2 + X2^2 in millionths, two digits of u. */
    private static StreamedMonteCarlo.Result loss(double x1, double most, long seed) {
        Drawn model = (random, normal) -> {
            double a = x1 + 0.005 * normal.sample();
            double b = 0.005 * normal.sample();
            return 1e6 * (a * a + b * b);
        };
        return run(model, IntervalKind.SHORTEST, 2, new Interval(0, most), seed);
    }

    @Test
    void exactlySoManyValuesAreDrawnWhereAllAreAskedFor() {
        for (long wanted : new long[] {2, 3, 511, 512, 65_536, 65_537, 200_001}) {
            long[] filled = {0};
            StreamedSource counting = random -> (values, companions) -> {
                for (int i = 0; i < values.length; i++) {
                    values[i] = filled[0];
                    companions[i] = 2 * filled[0];
                    filled[0]++;
                }
            };
            StreamedMonteCarlo.Result found = StreamedMonteCarlo.run(
                    counting,
                    new StreamedMonteCarlo.Plan(
                            1,
                            1,
                            0.95,
                            IntervalKind.SYMMETRIC,
                            0,
                            wanted,
                            new Interval(-1, 1e6),
                            new Interval(0.5, 1e6)));
            // 0, 1, 2 ... in whole buffers of 512, and places all over the last one
            int whole = (int) (wanted / 512 * 512);
            int rest = (int) (wanted - whole);
            double[] values = IntStream.range(0, (int) wanted)
                    .mapToDouble(i -> i < whole ? i : whole + (i - whole) * 512 / rest)
                    .toArray();
            double mean = Arrays.stream(values).average().orElseThrow();
            double squares =
                    Arrays.stream(values).map(x -> (x - mean) * (x - mean)).sum();
            double deviation = Math.sqrt(squares / (wanted - 1));
            assertThat(found.values()).isEqualTo(wanted);
            assertThat(found.mean()).isCloseTo(mean, within(1e-9 * wanted));
            assertThat(found.companionMean()).isCloseTo(2 * mean, within(1e-9 * wanted));
            assertThat(found.standardDeviation()).isCloseTo(deviation, within(1e-9 * deviation));
            assertThat(found.below()).isEqualTo(1);
            assertThat(found.above()).isZero();
        }
    }

    @Test
    void fewValuesHoldTheKindsThatASourcePutsSideBySideInTheirShares() {
        StreamedSource kinds = random -> (values, companions) -> {
            Arrays.fill(values, 0, values.length / 4, 1);
            Arrays.fill(values, values.length / 4, values.length, 2);
        };
        StreamedMonteCarlo.Result found = StreamedMonteCarlo.run(
                kinds,
                new StreamedMonteCarlo.Plan(
                        1, 1, 0.95, IntervalKind.SYMMETRIC, 0, 100, new Interval(0, 3), new Interval(0, 3)));
        // a quarter ones, three quarters twos
        assertThat(found.mean()).isCloseTo(1.75, within(0.01));
    }
}
