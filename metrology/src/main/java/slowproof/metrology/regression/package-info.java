/**
 * Fitting: linear, weighted and generalised least squares, straight lines with errors in both axes, monotone,
 * logistic, penalised, hinged and nonlinear regression, each with the covariance of what it estimates.
 *
 * <p>Units are those of the caller's data: a coefficient has the unit of the response divided by the unit of its
 * column. Weights are reciprocal variances unless said otherwise. Nothing here knows what is measured; every result
 * is immutable and every random draw comes from a seed that the caller gives.
 */
@NullMarked
package slowproof.metrology.regression;

import org.jspecify.annotations.NullMarked;
