package slowproof.metrology.regression;

import org.hipparchus.analysis.differentiation.Gradient;

/**
 * A curve with parameters, written with numbers that carry their own derivatives, so that no derivative has to be
 * supplied.
 */
@FunctionalInterface
public interface CurveModel {
    /**
     * Value of the curve at one point.
     *
     * @param parameters current parameters with their derivatives; not to be modified
     * @param x the point, one number per predictor; not to be modified
     * @return the value in the unit of the response
     */
    Gradient value(Gradient[] parameters, double[] x);
}
