package slowproof.trial.curve;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The error curve of one material: relative error (ratio) against speed within the tested range, as draws of its
 * posterior and their summary. The value is the mean of the draws; the band is pointwise, from their 2.5 and
 * 97.5 % quantiles: a "95 % band (posterior, coverage checked by simulation)". A statement on the whole curve
 * at once needs the wider simultaneous band.
 */
public final class ErrorCurve {
    private final CurveDraws draws;
    private final double[] testedMmPerS;
    private final LackOfFit lackOfFit;
    private final List<CurvePoint> grid;
    private final double simultaneousFactor;

    /**
     * Sums the draws up.
     *
     * @param draws the draws
     * @param testedMmPerS tested speeds in mm/s, ascending, all among the nodes of the draws
     * @param lackOfFit test of the curve against the condition means
     */
    ErrorCurve(CurveDraws draws, double[] testedMmPerS, LackOfFit lackOfFit) {
        this.draws = draws;
        this.testedMmPerS = testedMmPerS.clone();
        this.lackOfFit = lackOfFit;
        grid = IntStream.range(0, draws.nodes())
                .parallel()
                .mapToObj(k -> {
                    double[] values = new double[draws.count()];
                    for (int i = 0; i < values.length; i++) {
                        values[i] = draws.at(i, k);
                    }
                    return summary(draws.nodeMmPerS(k), values);
                })
                .toList();
        double[] farthest = new double[draws.count()];
        for (int k = 0; k < draws.nodes(); k++) {
            CurvePoint point = grid.get(k);
            if (point.standardUncertainty() > 0) {
                for (int i = 0; i < farthest.length; i++) {
                    farthest[i] = Math.max(
                            farthest[i], Math.abs(draws.at(i, k) - point.error()) / point.standardUncertainty());
                }
            }
        }
        Arrays.sort(farthest);
        simultaneousFactor = Quantiles.upper(farthest, 0.95);
    }

    /** Returns the draws, for forecasts. */
    public CurveDraws draws() {
        return draws;
    }

    /** Returns the tested speeds in mm/s, ascending; a copy. */
    public double[] testedMmPerS() {
        return testedMmPerS.clone();
    }

    /** Returns the slowest tested speed in mm/s. */
    public double slowestMmPerS() {
        return testedMmPerS[0];
    }

    /** Returns the fastest tested speed in mm/s. */
    public double fastestMmPerS() {
        return testedMmPerS[testedMmPerS.length - 1];
    }

    /** Returns the curve on the nodes of the draws: the tested speeds and a few between. */
    public List<CurvePoint> grid() {
        return grid;
    }

    /** Returns the curve at the tested speeds. */
    public List<CurvePoint> tested() {
        return Arrays.stream(testedMmPerS).mapToObj(this::at).toList();
    }

    /**
     * Returns the curve at a tested speed or between.
     *
     * @param speedMmPerS speed in mm/s
     * @throws IllegalArgumentException if the speed lies outside the tested range
     */
    public CurvePoint at(double speedMmPerS) {
        double slack = 1e-9 * speedMmPerS;
        if (!(speedMmPerS >= slowestMmPerS() - slack && speedMmPerS <= fastestMmPerS() + slack)) {
            throw new IllegalArgumentException("not tested at " + speedMmPerS + " mm/s, only from " + slowestMmPerS()
                    + " to " + fastestMmPerS() + " mm/s");
        }
        double[] values = new double[draws.count()];
        for (int i = 0; i < values.length; i++) {
            values[i] = draws.atSpeed(i, speedMmPerS);
        }
        return summary(speedMmPerS, values);
    }

    /** Returns the test of the curve against the condition means. */
    public LackOfFit lackOfFit() {
        return lackOfFit;
    }

    /**
     * Returns the factor on the standard uncertainty that makes a band which holds the whole curve at once with 95 %:
     * the 95 % quantile of the largest |draw - mean| / u over the nodes.
     */
    public double simultaneousFactor() {
        return simultaneousFactor;
    }

    /** Sorts the values. */
    private static CurvePoint summary(double speed, double[] values) {
        double mean = 0;
        for (double value : values) {
            mean += value;
        }
        mean /= values.length;
        double squares = 0;
        for (double value : values) {
            squares += (value - mean) * (value - mean);
        }
        Arrays.sort(values);
        return new CurvePoint(
                speed,
                mean,
                Math.sqrt(squares / (values.length - 1)),
                Quantiles.lower(values, 0.025),
                Quantiles.upper(values, 0.975));
    }
}
