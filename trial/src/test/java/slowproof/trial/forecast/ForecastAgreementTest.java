package slowproof.trial.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Distributions;
import slowproof.metrology.uncertainty.NumericalTolerance;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.forecast.Forecast.Figures;
import slowproof.trial.forecast.Forecast.Sampled;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceSpec;

/** The analytic answer and Monte Carlo are two ways through one model and have to meet (JCGM 101:2008, clause 8). */
class ForecastAgreementTest {
    static Line random(SplittableRandom random) {
        double fast = 150 + 240 * random.nextDouble();
        double creep = 12 + 60 * random.nextDouble();
        double a = 200 + 800 * random.nextDouble();
        List<LineStep> steps = new ArrayList<>();
        int stops = random.nextInt(3);
        if (stops > 0) {
            steps.add(new LineStep.Repeat(
                    stops,
                    List.of(
                            LineStep.RampTo.of(fast, a),
                            new LineStep.HoldMm(50),
                            LineStep.RampTo.of(0, a),
                            new LineStep.Stop(1))));
        }
        steps.add(LineStep.RampTo.of(fast, a));
        steps.add(new LineStep.HoldRest());
        steps.add(LineStep.RampTo.of(creep, a));
        steps.add(new LineStep.HoldMm(20 + 100 * random.nextDouble()));
        steps.add(LineStep.RampTo.of(0, a));
        double length = 2500 + 3000 * random.nextDouble();
        int perCycle = random.nextInt(4) == 0 ? 2 : 1;
        return new Line(
                "random",
                null,
                List.of(PieceSpec.of(length, 0.5 + 2 * random.nextDouble())),
                random.nextInt(5) > 0,
                perCycle,
                steps,
                null,
                0.0005 * random.nextDouble(),
                0.002,
                random.nextBoolean() ? 1.0 : null,
                null,
                "",
                0.95,
                0.95);
    }

    @Test
    void analyticAndMonteCarloAgreeWithinTheNumericalTolerance() {
        for (int seed = 1; seed <= 12; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            LineEvidence evidence = Evidence.random(random);
            Line line = random(random);
            Figures found = Evidence.there(Forecasting.of(evidence, line, new Settings(seed, 3_000_000, false, 2))
                    .figures());
            Sampled sampled = found.monteCarlo();
            double delta = NumericalTolerance.of(sampled.deviationMm(), 2);
            // three standard deviations of what three million draws leave, beside the tolerance
            double chance = 3 * sampled.deviationMm() / Math.sqrt((double) sampled.pieces());
            String what = "seed " + seed;
            assertThat(sampled.expectedErrorMm()).as(what).isCloseTo(found.expectedErrorMm(), within(delta + chance));
            assertThat(sampled.pieceInterval().low())
                    .as(what)
                    .isCloseTo(found.pieceInterval().low(), within(delta + 3 * chance));
            assertThat(sampled.pieceInterval().high())
                    .as(what)
                    .isCloseTo(found.pieceInterval().high(), within(delta + 3 * chance));
            double share = Evidence.there(found.outside());
            double u = Evidence.there(sampled.outsideUncertainty());
            assertThat(Evidence.there(sampled.outside()))
                    .as(what)
                    .isCloseTo(share, within(4 * u + 1e-3 * share + 1e-12));
        }
    }

    @Test
    void sharesOfOneInAMillionAgreeWithImportanceSampling() {
        LineEvidence evidence = Evidence.exact(10, 0, 400, 0, 0.1, 1e-9);
        Line line = Line.of(
                "tail",
                PieceSpec.of(2000, 0.489),
                List.of(LineStep.RampTo.of(300, 500), new LineStep.HoldRest(), LineStep.RampTo.of(0, 500)));
        Figures found = Evidence.there(
                Forecasting.of(evidence, line, new Settings(3, 2, false, 1)).figures());
        double share = Evidence.there(found.outside());
        // two tails at 4.89 standard deviations: 1.0e-6, 1.4 % more for 10000 degrees of freedom (z^4 / 4 nu)
        assertThat(share).isCloseTo(2 * Distributions.normalCdf(-4.89), within(3e-8));
        assertThat(found.monteCarlo().tailSampled()).isTrue();
        double u = Evidence.there(found.monteCarlo().outsideUncertainty());
        assertThat(u).isLessThan(0.02 * share);
        assertThat(Evidence.there(found.monteCarlo().outside())).isCloseTo(share, within(4 * u));
    }

    @Test
    void tailOfNormalPlusTriangleAgreesWithItsIntegral() {
        double[][] cases = {{0.3, 0.1, 0.05}, {0.5, 0.08, 0.1}, {1.0, 0.15, 0.4}, {0.02, 0.01, 0.1}, {-0.1, 0.1, 0.2}};
        for (double[] c : cases) {
            double sum = 0;
            int n = 20000;
            for (int i = 0; i < n; i++) {
                double t = c[2] * (2 * (i + 0.5) / n - 1);
                double density = (c[2] - Math.abs(t)) / (c[2] * c[2]);
                sum += density * Distributions.normalCdf(-(c[0] - t) / c[1]) * 2 * c[2] / n;
            }
            assertThat(Tails.above(c[0], c[1], c[2])).isCloseTo(sum, within(1e-6 * sum + 1e-14));
        }
    }

    @Test
    void threadsDoNotChangeTheRun() {
        SplittableRandom random = new SplittableRandom(5);
        LineEvidence evidence = Evidence.random(random);
        Line line = random(random);
        Sampled one = Evidence.there(Forecasting.of(evidence, line, new Settings(5, 300_000, false, 1))
                        .figures())
                .monteCarlo();
        Sampled two = Evidence.there(Forecasting.of(evidence, line, new Settings(5, 300_000, false, 2))
                        .figures())
                .monteCarlo();
        assertThat(two).isEqualTo(one);
    }

    @Test
    void adaptiveRunStopsWhenTwoDigitsAreStable() {
        SplittableRandom random = new SplittableRandom(6);
        Sampled run = Evidence.there(
                        Forecasting.of(Evidence.random(random), random(random), new Settings(6, 10_000_000, true, 2))
                                .figures())
                .monteCarlo();
        assertThat(run.stable()).isTrue();
        assertThat(run.pieces()).isBetween(10L * 65_536, 10_000_000L);
    }
}
