package slowproof.metrology.regression;

import java.util.Optional;
import org.hipparchus.util.FastMath;
import slowproof.metrology.Check;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;

/**
 * A fitted logistic regression: P(yes) = 1/(1 + exp(-x'b)). Intervals are approximate: normal on the scale of the
 * linear predictor.
 */
public final class LogisticFit {
    private final double[] coefficients;
    private final double[][] covariance;
    private final double logLikelihood;
    private final boolean biasReduced;

    LogisticFit(double[] coefficients, double[][] covariance, double logLikelihood, boolean biasReduced) {
        this.coefficients = coefficients;
        this.covariance = covariance;
        this.logLikelihood = logLikelihood;
        this.biasReduced = biasReduced;
    }

    /**
     * One coefficient.
     *
     * @param index of the predictor, from 0
     * @return logit per unit of the predictor
     */
    public double coefficient(int index) {
        return coefficients[index];
    }

    /**
     * Covariance of two coefficients, from the information at the fit.
     *
     * @param i index of one predictor, from 0
     * @param j index of the other
     * @return in the product of their units
     */
    public double covariance(int i, int j) {
        return covariance[i][j];
    }

    /**
     * Natural logarithm of the likelihood at the fit, without the penalty of the bias-reduced fit.
     *
     * @return at most 0, dimensionless
     */
    public double logLikelihood() {
        return logLikelihood;
    }

    /**
     * Whether this is the bias-reduced fit rather than the maximum of the likelihood.
     *
     * @return true for the bias-reduced fit
     */
    public boolean biasReduced() {
        return biasReduced;
    }

    /**
     * Probability of yes.
     *
     * @param row predictors, as in the fit
     * @return 0 to 1, dimensionless
     */
    public double probability(double... row) {
        return inverseLogit(Matrices.dot(row, coefficients));
    }

    /**
     * Approximate confidence interval of the probability of yes.
     *
     * @param level two-sided confidence level, above 0 and below 1
     * @param row predictors, as in the fit
     * @return within 0 to 1, dimensionless
     */
    public Interval probabilityInterval(double level, double... row) {
        double eta = Matrices.dot(row, coefficients);
        double half = quantile(level) * Math.sqrt(Math.max(0, Matrices.quadraticForm(row, covariance)));
        return new Interval(inverseLogit(eta - half), inverseLogit(eta + half));
    }

    /**
     * The value of the single predictor at which the probability of yes takes a value; for a fit with rows (1, x).
     *
     * @param share probability, above 0 and below 1
     * @return in the unit of the predictor
     * @throws IllegalArgumentException if the share is not between 0 and 1 or the fit has not two coefficients
     * @throws IllegalStateException if the probability does not depend on the predictor
     */
    public double crossing(double share) {
        return line().inverse(logit(share), 0).x();
    }

    /**
     * Confidence set of {@link #crossing} by Fieller's theorem on the scale of the linear predictor.
     *
     * @param share probability, above 0 and below 1
     * @param level two-sided confidence level, above 0 and below 1
     * @return the interval, or empty when the slope is not different from 0 at that level: the set is then unbounded
     * @throws IllegalArgumentException if an argument is out of its range or the fit has not two coefficients
     */
    public Optional<Interval> crossingInterval(double share, double level) {
        return line().fieller(logit(share), 0, quantile(level));
    }

    static double inverseLogit(double eta) {
        return 1 / (1 + FastMath.exp(-eta));
    }

    private static double logit(double share) {
        Check.openProbability(share, "share");
        return FastMath.log(share / (1 - share));
    }

    private static double quantile(double level) {
        return Distributions.normalQuantile((1 + Check.openProbability(level, "confidence")) / 2);
    }

    private StraightLine line() {
        Matrices.sameLength(2, coefficients.length, "coefficients");
        return new StraightLine(
                coefficients[0], coefficients[1], covariance[0][0], covariance[1][1], covariance[0][1], 0, 0, true);
    }
}
