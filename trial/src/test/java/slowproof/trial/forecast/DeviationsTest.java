package slowproof.trial.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import slowproof.metrology.Interval;
import slowproof.metrology.Refinement;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.forecast.Forecast.Figures;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceSpec;

/** The densities of a chart say what the figures of the forecast say; spread and uncertainty stay apart. */
class DeviationsTest {
    private static final Settings QUICK = new Settings(1, 2, false, 1);

    private static Forecast forecast(LineEvidence evidence, Line line) {
        return Forecasting.answer(evidence, line, QUICK);
    }

    private static Line trapezoid(double length, double tolerance) {
        return Line.of(
                "t",
                PieceSpec.of(length, tolerance),
                List.of(LineStep.RampTo.of(300, 500), new LineStep.HoldRest(), LineStep.RampTo.of(0, 500)));
    }

    /** Simpson's rule. */
    private static double integral(DoubleUnaryOperator f, double low, double high) {
        int n = 600;
        double h = (high - low) / n;
        double sum = f.applyAsDouble(low) + f.applyAsDouble(high);
        for (int i = 1; i < n; i++) {
            sum += (i % 2 == 0 ? 2 : 4) * f.applyAsDouble(low + i * h);
        }
        return sum * h / 3;
    }

    private static double trapezoids(List<Refinement.Point> curve) {
        double sum = 0;
        for (int i = 1; i < curve.size(); i++) {
            sum += 0.5
                    * (curve.get(i).y() + curve.get(i - 1).y())
                    * (curve.get(i).x() - curve.get(i - 1).x());
        }
        return sum;
    }

    @Test
    void densitiesAgreeWithTheFiguresOfTheForecast() {
        for (int seed = 1; seed <= 4; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            LineEvidence evidence = Evidence.random(random);
            Line line = ForecastAgreementTest.random(random);
            Forecast forecast = forecast(evidence, line);
            Figures figures = Evidence.there(forecast.figures());
            Deviations found = Evidence.there(Deviations.of(forecast, 1));
            String what = "seed " + seed;
            double mean = found.meanMm();
            double expected =
                    figures.deviationMm() == null ? figures.expectedErrorMm() : Evidence.there(figures.deviationMm());
            assertThat(mean).as(what).isCloseTo(expected, within(1e-12));

            double reach = 12 * figures.spreadMm();
            DoubleUnaryOperator pieces = found::pieceDensity;
            assertThat(integral(pieces, mean - reach, mean + reach)).as(what).isCloseTo(1, within(1e-6));
            assertThat(integral(x -> x * pieces.applyAsDouble(x), mean - reach, mean + reach))
                    .as(what)
                    .isCloseTo(mean, within(1e-6));
            double variance =
                    integral(x -> (x - mean) * (x - mean) * pieces.applyAsDouble(x), mean - reach, mean + reach);
            assertThat(Math.sqrt(variance)).as(what).isCloseTo(figures.spreadMm(), within(1e-5 * figures.spreadMm()));

            // all of the next piece, the far tails of a scatter that is known from few passes included
            double far = 40 * (figures.spreadMm() + figures.meanUncertaintyMm());
            double whole = 0;
            for (double edge = -1; edge < 1; edge += 0.05) {
                whole += integral(found::nextDensity, mean + edge * far, mean + (edge + 0.05) * far);
            }
            assertThat(whole).as(what).isCloseTo(1, within(1e-5));

            PieceSpec spec = line.pieces().get(0);
            double inside =
                    integral(found::nextDensity, Evidence.there(spec.lowerMm()), Evidence.there(spec.upperMm()));
            assertThat(1 - inside).as(what).isCloseTo(Evidence.there(figures.outside()), within(1e-6));
            Interval next = figures.pieceInterval();
            assertThat(integral(found::nextDensity, next.low(), next.high()))
                    .as(what)
                    .isCloseTo(0.95, within(1e-5));

            assertThat(trapezoids(found.pieceCurve())).as(what).isCloseTo(1, within(0.01));
            assertThat(trapezoids(found.nextCurve())).as(what).isCloseTo(1, within(0.01));
        }
    }

    @Test
    void standardDeviationOfTheNextPieceIsThatOfMonteCarlo() {
        // a scatter that is known well, so that a standard deviation settles
        SplittableRandom random = new SplittableRandom(3);
        LineEvidence evidence =
                Evidence.of(Evidence.there(Evidence.random(random).draws()), 0.05, 0.02, 30, 0.1);
        Forecast forecast = Forecasting.answer(evidence, trapezoid(2500, 1), new Settings(1, 2_000_000, false, 2));
        Figures figures = Evidence.there(forecast.figures());
        Deviations found = Evidence.there(Deviations.of(forecast, 1));
        double low = found.meanMm() - 5;
        double high = found.meanMm() + 5;
        double mean = integral(x -> x * found.nextDensity(x), low, high);
        double sd = Math.sqrt(integral(x -> (x - mean) * (x - mean) * found.nextDensity(x), low, high));
        assertThat(mean).isCloseTo(found.meanMm(), within(1e-4));
        // two million draws: sd / sqrt(4e6) is one standard deviation of the standard deviation
        assertThat(sd).isCloseTo(figures.monteCarlo().deviationMm(), within(4 * sd / 2000));
    }

    @Test
    void aKnownCurveMakesTheNextPieceOneOfThePieces() {
        Deviations found = Evidence.there(
                Deviations.of(forecast(Evidence.exact(10, 0.001, 400, 0.001, 0.05, 0.02), trapezoid(2000, 3)), 1));
        // +0.1 % of 2000 mm over-read: 1.998 mm short, and nothing unknown about it
        assertThat(found.meanMm()).isCloseTo(2000 / 1.001 - 2000, within(1e-9));
        assertThat(found.meanIntervalMm().width()).isLessThan(1e-6);
        double sd = Math.sqrt(0.05 * 0.05 + 0.02 * 0.02 * 2);
        double top = 1 / (sd * Math.sqrt(2 * Math.PI));
        assertThat(found.pieceDensity(found.meanMm())).isCloseTo(top, within(1e-3 * top));
        assertThat(found.nextDensity(found.meanMm())).isCloseTo(top, within(1e-2 * top));
    }

    @Test
    void theIntervalOfTheMeanDeviationIsThatOfTheErrorMirrored() {
        LineEvidence evidence = Evidence.random(new SplittableRandom(4));
        Forecast forecast = forecast(evidence, trapezoid(2500, 2));
        Interval error = Evidence.there(forecast.figures()).meanInterval();
        Interval deviation = Evidence.there(Deviations.of(forecast, 1)).meanIntervalMm();
        // -e / (1 + e / L), a few parts in ten thousand beside the mirrored value
        assertThat(deviation.low()).isCloseTo(-error.high(), within(2e-3 * Math.abs(error.high())));
        assertThat(deviation.high()).isCloseTo(-error.low(), within(2e-3 * Math.abs(error.low()) + 1e-3));
    }

    @Test
    void twoKindsOfPiecesAreTwoHumps() {
        // late cuts on the fly: one piece 2 mm long, the next 2 mm short, both spread over the travel
        Line line = new Line(
                "fly",
                null,
                List.of(PieceSpec.of(500, 3)),
                true,
                2,
                List.of(LineStep.RampTo.of(200, 500), new LineStep.HoldRest(), LineStep.RampTo.of(0, 500)),
                null,
                0,
                0.01,
                null,
                null,
                "",
                0.95,
                0.95);
        Deviations found = Evidence.there(Deviations.of(forecast(Evidence.exact(10, 0, 400, 0, 1e-6, 0.03), line), 1));
        assertThat(found.pieceDensity(2)).isGreaterThan(1000 * found.pieceDensity(0));
        assertThat(trapezoids(found.pieceCurve())).isCloseTo(1, within(0.01));
        assertThat(trapezoids(found.nextCurve())).isCloseTo(1, within(0.01));
        assertThat(found.pieceCurve().size()).isLessThan(300);
    }

    @Test
    void densityOfNormalPlusTriangleIsTheSlopeOfItsTail() {
        double[][] cases = {
            {0.3, 0.1, 0.05},
            {0.05, 0.08, 0.1},
            {0.4, 0.15, 0.4},
            {0.02, 0.01, 0.1},
            {-0.1, 0.1, 0.2},
            {0.1, 0.2, 0.0001},
            {0.03, 1e-7, 0.1}
        };
        for (double[] c : cases) {
            double h = 1e-5;
            double slope = (Tails.above(c[0] - h, c[1], c[2]) - Tails.above(c[0] + h, c[1], c[2])) / (2 * h);
            assertThat(Tails.density(c[0], c[1], c[2])).isCloseTo(slope, within(1e-5 * slope + 1e-7));
        }
    }
}
