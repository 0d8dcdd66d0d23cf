package slowproof.metrology.uncertainty;

import slowproof.metrology.Check;

/**
 * One independent contribution to the uncertainty of a result, already multiplied by its sensitivity.
 *
 * @param source what contributes; not blank
 * @param standardUncertainty in the unit of the result, finite, at least 0
 * @param degreesOfFreedom dimensionless, above 0; {@link Double#POSITIVE_INFINITY} for a well known one
 */
public record Component(String source, double standardUncertainty, double degreesOfFreedom) {

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException if the source is blank, the uncertainty is negative or not finite, or
     *     the degrees of freedom are not above 0
     */
    public Component {
        if (source.isBlank()) {
            throw new IllegalArgumentException("a component needs the name of its source");
        }
        Check.notNegative(standardUncertainty, "standard uncertainty of " + source);
        Check.degreesOfFreedom(degreesOfFreedom);
    }
}
