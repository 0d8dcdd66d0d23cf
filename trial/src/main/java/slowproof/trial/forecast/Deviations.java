package slowproof.trial.forecast;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Interval;
import slowproof.metrology.Refinement;
import slowproof.metrology.Refinement.Answer;

/**
 * How pieces deviate, three things apart: the spread from piece to piece about the expected mean, the uncertainty of that
 * mean, which all pieces share, and the next single piece, which knows neither. The tolerance judges these deviations:
 * of the cut length where the line cuts on the sensor, else of the measured one. In mm; densities in 1/mm.
 */
public final class Deviations {
    /** Distances from a centre at which a density is asked first, in standard deviations. */
    private static final double[] STARTS = {-8, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5, 8};

    /** Beyond so many standard deviations a part adds less to a density than a double holds. */
    private static final double FAR = 9;

    private static final int CENTRES = 24;
    private static final int PLACES = 200;
    private static final double SHARE = 0.004;
    private static final double NARROW = 1e-9;

    private final double meanMm;
    private final Interval meanIntervalMm;
    private final Mixture pieces;
    private final Mixture next;

    private Deviations(double meanMm, Interval meanIntervalMm, Mixture pieces, Mixture next) {
        this.meanMm = meanMm;
        this.meanIntervalMm = meanIntervalMm;
        this.pieces = pieces;
        this.next = next;
    }

    /**
     * Returns the deviations of a forecast; null where it has no figures, or where pieces do not differ at all.
     *
     * @param forecast the forecast
     * @param seed seed of its draws
     */
    public static @Nullable Deviations of(Forecast forecast, long seed) {
        LineCurves curves = LineCurves.of(forecast.evidence());
        if (curves == null || forecast.figures() == null) {
            return null;
        }
        LineModel model = LineModel.of(forecast.evidence(), curves, forecast.line(), seed);
        Mixture pieces = pieces(model.pieces);
        Mixture next = next(model.pieces);
        if (!(pieces.leastSpread() > 0 && next.leastSpread() > 0)) {
            return null;
        }
        Judgement judge = new Judgement(model);
        return new Deviations(judge.meanDeviationMm(), judge.meanDeviationIntervalMm(), pieces, next);
    }

    private static Mixture pieces(List<PieceModel> models) {
        Mixture mixture = new Mixture(models.size());
        for (PieceModel piece : models) {
            double jitter = piece.cutsOnSensor() ? piece.triggerMm() : 0;
            mixture.add(
                    piece.weight(),
                    piece.deviationMm(piece.meanErrorMm()),
                    Math.sqrt(piece.scatterVariance() + square(jitter)),
                    piece.stepMm());
        }
        return mixture;
    }

    private static Mixture next(List<PieceModel> models) {
        int draws = models.get(0).draws();
        Mixture mixture = new Mixture(models.size() * draws);
        for (PieceModel piece : models) {
            double shared = square(piece.referenceUMm()) + square(piece.fixedUMm());
            for (int i = 0; i < draws; i++) {
                mixture.add(
                        piece.weight() / draws,
                        piece.deviationMm(piece.curveMm()[i]),
                        Math.sqrt(square(piece.spreadMm(i)) + shared),
                        piece.stepMm());
            }
        }
        return mixture;
    }

    /** Returns the expected mean deviation of all pieces in mm. */
    public double meanMm() {
        return meanMm;
    }

    /** Returns its 95 % interval in mm, the bounds of what is not covered added at its ends. */
    public Interval meanIntervalMm() {
        return meanIntervalMm;
    }

    /** Returns the density of pieces about the expected mean at a deviation: what they differ by among each other. */
    public double pieceDensity(double deviationMm) {
        return pieces.density(deviationMm);
    }

    /** Returns the density of the next single piece at a deviation: spread and uncertainty of the mean together. */
    public double nextDensity(double deviationMm) {
        return next.density(deviationMm);
    }

    /** Returns the places that show {@link #pieceDensity}, from where it begins to where it ends. */
    public List<Refinement.Point> pieceCurve() {
        return pieces.curve();
    }

    /** Returns the places that show {@link #nextDensity}, from where it begins to where it ends. */
    public List<Refinement.Point> nextCurve() {
        return next.curve();
    }

    private static double square(double x) {
        return x * x;
    }

    /** Normal variables, each with the triangular one of two roundings, in shares. */
    private static final class Mixture {
        private final double[] weights;
        private final double[] centres;
        private final double[] spreads;
        private final double[] steps;
        private int size;

        Mixture(int size) {
            weights = new double[size];
            centres = new double[size];
            spreads = new double[size];
            steps = new double[size];
        }

        void add(double weight, double centre, double spread, double step) {
            weights[size] = weight;
            centres[size] = centre;
            spreads[size] = spread;
            steps[size] = step;
            size++;
        }

        private double whole(int i) {
            return Math.sqrt(square(spreads[i]) + square(steps[i]) / 6);
        }

        double leastSpread() {
            double least = Double.POSITIVE_INFINITY;
            for (int i = 0; i < size; i++) {
                least = Math.min(least, whole(i));
            }
            return least;
        }

        double density(double x) {
            double sum = 0;
            for (int i = 0; i < size; i++) {
                double distance = x - centres[i];
                if (Math.abs(distance) < FAR * spreads[i] + steps[i]) {
                    sum += weights[i] * Tails.density(distance, spreads[i], steps[i]);
                }
            }
            return sum;
        }

        /** Asks about centres that stand apart, some of very many, and then where the density bends. */
        List<Refinement.Point> curve() {
            List<Integer> order = new ArrayList<>();
            for (int i = 0; i < size; i++) {
                order.add(i);
            }
            order.sort(Comparator.comparingDouble(i -> centres[i]));
            List<Double> starts = new ArrayList<>();
            int some = Math.min(CENTRES, size);
            double last = Double.NEGATIVE_INFINITY;
            for (int k = 0; k < some; k++) {
                int i = order.get(some == 1 ? 0 : (int) ((long) k * (size - 1) / (some - 1)));
                if (centres[i] > last + whole(i)) {
                    last = centres[i];
                    for (double distance : STARTS) {
                        starts.add(centres[i] + distance * whole(i));
                    }
                }
            }
            double[] places = apart(starts.stream().mapToDouble(x -> x).toArray());
            return Refinement.of(x -> new Answer(density(x), true), places, SHARE, places.length + PLACES);
        }

        /** Sorts places and leaves out those that nobody could tell from the one before. */
        private static double[] apart(double[] places) {
            Arrays.sort(places);
            double least = (places[places.length - 1] - places[0]) * NARROW;
            double[] kept = new double[places.length];
            int n = 0;
            for (double place : places) {
                if (n == 0 || place - kept[n - 1] > least) {
                    kept[n++] = place;
                }
            }
            return Arrays.copyOf(kept, n);
        }
    }
}
