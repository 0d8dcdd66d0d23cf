package slowproof.trial.forecast;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import slowproof.metrology.Interval;

/**
 * Analytic answers of a mix of pieces: mixtures over the draws of what pieces share, each with the normal and rounding
 * scatter of its own in closed form. One instance, many questions.
 */
final class Judgement {
    private static final int STEPS = 60;

    private final LineModel model;
    private final List<PieceModel> pieces;
    private final int draws;

    Judgement(LineModel model) {
        this.model = model;
        this.pieces = model.pieces;
        this.draws = pieces.get(0).draws();
    }

    boolean hasTolerance() {
        return pieces.stream().anyMatch(p -> p.lowerMm() != null);
    }

    double expectedErrorMm() {
        return weighted(PieceModel::meanErrorMm);
    }

    private double weighted(java.util.function.ToDoubleFunction<PieceModel> of) {
        return pieces.stream()
                .mapToDouble(p -> p.weight() * of.applyAsDouble(p))
                .sum();
    }

    /** Returns the mean deviation that the tolerance judges. */
    double meanDeviationMm() {
        return weighted(p -> p.deviationMm(p.meanErrorMm()));
    }

    /** Returns the standard deviation from piece to piece; differences between the pieces of a cycle take part. */
    double spreadMm() {
        double mean = meanDeviationMm();
        return Math.sqrt(weighted(p -> square(p.pieceSpreadMm()) + square(p.deviationMm(p.meanErrorMm()) - mean)));
    }

    double positionVariance() {
        double mean = expectedErrorMm();
        return weighted(p -> square(p.meanErrorMm() - mean));
    }

    /** Returns the standard uncertainty of the mean error over all pieces: they share curve, reference and set-up. */
    double meanUncertaintyMm() {
        return Math.sqrt(square(curveUMm())
                + square(weighted(PieceModel::referenceUMm))
                + square(weighted(PieceModel::fixedUMm)));
    }

    double curveUMm() {
        return LineModel.deviation(meanCurve());
    }

    private double[] meanCurve() {
        double[] all = new double[draws];
        for (PieceModel piece : pieces) {
            for (int i = 0; i < draws; i++) {
                all[i] += piece.weight() * piece.curveMm()[i];
            }
        }
        return all;
    }

    /** Returns the 95 % interval of the mean error, the bounds of what is not covered added at its ends. */
    Interval meanIntervalMm() {
        return meanInterval(meanCurve(), model.coverage.lossMm(), model.coverage.gainMm());
    }

    /**
     * Returns the same of the mean deviation that the tolerance judges. An error that is lost makes a piece long where the
     * sensor cuts.
     */
    Interval meanDeviationIntervalMm() {
        double[] all = new double[draws];
        for (PieceModel piece : pieces) {
            for (int i = 0; i < draws; i++) {
                all[i] += piece.weight() * piece.deviationMm(piece.curveMm()[i]);
            }
        }
        boolean cuts = model.line.cutsOnSensor();
        double loss = model.coverage.lossMm();
        double gain = model.coverage.gainMm();
        return meanInterval(all, cuts ? gain : loss, cuts ? loss : gain);
    }

    private Interval meanInterval(double[] centres, double less, double more) {
        double rest = Math.hypot(weighted(PieceModel::referenceUMm), weighted(PieceModel::fixedUMm));
        double[] ends = ends(centres, 10 * rest);
        DoubleUnaryOperator above = x -> {
            double sum = 0;
            for (double centre : centres) {
                sum += Tails.above(x - centre, rest, 0);
            }
            return sum / centres.length;
        };
        double low = solve(above, 0.975, ends);
        double high = solve(above, 0.025, ends);
        return new Interval(low - less, Math.max(low, high) + more);
    }

    /** Returns the symmetric interval that holds the next piece with a probability, without what is not covered. */
    Interval pieceIntervalMm(double probability) {
        double[] centres = pieces.stream()
                .flatMapToDouble(p -> Arrays.stream(p.curveMm()).map(p::deviationMm))
                .toArray();
        double widest = pieces.stream()
                .mapToDouble(p -> 10
                        * Math.sqrt(square(p.pieceSpreadMm() * max(p.scatterFactor()))
                                + square(p.referenceUMm())
                                + square(p.fixedUMm())))
                .max()
                .orElse(0);
        double[] ends = ends(centres, widest);
        DoubleUnaryOperator above = this::nextAbove;
        double low = solve(above, 0.5 + probability / 2, ends);
        double high = solve(above, 0.5 - probability / 2, ends);
        return new Interval(low, Math.max(low, high));
    }

    private double nextAbove(double x) {
        double sum = 0;
        for (PieceModel piece : pieces) {
            double own = 0;
            for (int i = 0; i < draws; i++) {
                own += piece.nextAbove(i, x);
            }
            sum += piece.weight() * own / draws;
        }
        return sum;
    }

    /** Returns the probability that the next piece lies outside its tolerance. */
    double nextOutside() {
        double sum = 0;
        for (PieceModel piece : pieces) {
            Double lower = piece.lowerMm();
            Double upper = piece.upperMm();
            if (lower == null || upper == null) {
                continue;
            }
            double own = 0;
            for (int i = 0; i < draws; i++) {
                // the lower tail by the mirrored question, so that small shares keep their digits
                double spread = piece.spreadMm(i);
                double all = Math.sqrt(spread * spread + square(piece.referenceUMm()) + square(piece.fixedUMm()));
                double centre = piece.deviationMm(piece.curveMm()[i]);
                own += Tails.above(upper - centre, all, piece.stepMm())
                        + Tails.above(centre - lower, all, piece.stepMm());
            }
            sum += piece.weight() * own / draws;
        }
        return sum;
    }

    /** Returns the sorted shares of pieces outside their tolerance over the draws, the mean deviation moved. */
    double[] shares(double shiftMm) {
        double[] shares = new double[draws];
        for (PieceModel piece : pieces) {
            Double lower = piece.lowerMm();
            Double upper = piece.upperMm();
            if (lower == null || upper == null) {
                continue;
            }
            for (int i = 0; i < draws; i++) {
                shares[i] += piece.weight() * piece.outside(i, lower, upper, shiftMm);
            }
        }
        Arrays.sort(shares);
        return shares;
    }

    /** Returns the 95 % interval of the share of pieces outside, what is not covered at its worst included. */
    Interval shareInterval() {
        double[] plain = shares(0);
        double low = quantile(plain, 0.025);
        double high = quantile(plain, 0.975);
        for (double shift : shifts()) {
            double[] moved = shares(shift);
            low = Math.min(low, quantile(moved, 0.025));
            high = Math.max(high, quantile(moved, 0.975));
        }
        return new Interval(low, high);
    }

    /**
     * Returns how far the mean deviation can be moved by what is not covered: both ends, and the place between them that
     * is nearest to the middle of the tolerance, where the fewest pieces lie outside. An error that is lost makes a piece
     * long where the sensor cuts.
     */
    private double[] shifts() {
        double loss = model.coverage.lossMm();
        double gain = model.coverage.gainMm();
        boolean cuts = model.line.cutsOnSensor();
        double least = cuts ? -gain : -loss;
        double most = cuts ? loss : gain;
        double middle = weighted(piece -> {
            Double lower = piece.lowerMm();
            Double upper = piece.upperMm();
            return lower == null || upper == null ? 0 : (lower + upper) / 2;
        });
        double best = Math.max(least, Math.min(most, middle - meanDeviationMm()));
        return Arrays.stream(new double[] {least, most, best})
                .filter(x -> x != 0)
                .toArray();
    }

    /** Returns the share outside that is not exceeded with the line's confidence, at the worst of what is not covered. */
    double shareAtConfidence() {
        double worst = quantile(shares(0), model.line.confidence());
        for (double shift : shifts()) {
            worst = Math.max(worst, quantile(shares(shift), model.line.confidence()));
        }
        return worst;
    }

    /** Returns the share outside that is exceeded with the line's confidence, at the best of what is not covered. */
    double shareExceeded() {
        double best = quantile(shares(0), 1 - model.line.confidence());
        for (double shift : shifts()) {
            best = Math.min(best, quantile(shares(shift), 1 - model.line.confidence()));
        }
        return best;
    }

    /** Returns whether the tolerance holds for the line's coverage with its confidence. */
    boolean holds() {
        return shareAtConfidence() <= 1 - model.line.coverage();
    }

    /**
     * Returns the tolerance, plus or minus mm, that holds the line's coverage of pieces with its confidence; what is not
     * covered is added at its worst.
     */
    double promisedToleranceMm() {
        double[] each = new double[draws];
        double allowed = 1 - model.line.coverage();
        for (int i = 0; i < draws; i++) {
            int draw = i;
            double most = 0;
            double least = Double.POSITIVE_INFINITY;
            for (PieceModel piece : pieces) {
                double centre = Math.abs(piece.sharedMm(i));
                double spread = Math.sqrt(square(piece.spreadMm(i)) + square(piece.stepMm()) / 6);
                most = Math.max(most, centre + 8 * spread);
                least = Math.min(least, centre);
            }
            double low = 0;
            double high = most;
            for (int k = 0; k < 26; k++) {
                double middle = 0.5 * (low + high);
                double outside = 0;
                for (PieceModel piece : pieces) {
                    outside += piece.weight() * piece.outside(draw, -middle, middle, 0);
                }
                if (outside > allowed) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            each[i] = high;
        }
        Arrays.sort(each);
        return quantile(each, model.line.confidence()) + model.coverage.largestMm();
    }

    static double quantile(double[] sorted, double p) {
        double at = p * sorted.length - 0.5;
        int low = (int) Math.max(0, Math.min(sorted.length - 1, Math.floor(at)));
        int high = Math.min(sorted.length - 1, low + 1);
        double share = Math.max(0, Math.min(1, at - low));
        return sorted[low] * (1 - share) + sorted[high] * share;
    }

    private static double max(double[] values) {
        return Arrays.stream(values).max().orElse(0);
    }

    private static double[] ends(double[] centres, double margin) {
        double low = Arrays.stream(centres).min().orElse(0);
        double high = Arrays.stream(centres).max().orElse(0);
        return new double[] {low - margin, high + margin};
    }

    /** Returns where a falling function takes a value. */
    private static double solve(DoubleUnaryOperator falling, double value, double[] ends) {
        double low = ends[0];
        double high = ends[1];
        double narrow = 1e-9 * (high - low);
        for (int k = 0; k < STEPS && high - low > narrow; k++) {
            double middle = 0.5 * (low + high);
            if (falling.applyAsDouble(middle) > value) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return 0.5 * (low + high);
    }

    private static double square(double x) {
        return x * x;
    }
}
