package slowproof.metrology.uncertainty;

import slowproof.metrology.Check;

/**
 * A named input quantity.
 *
 * @param name unique within its model, not blank
 * @param distribution what is known of it, in its own unit
 * @param degreesOfFreedom of its standard uncertainty, dimensionless, above 0, infinity allowed
 */
public record Input(String name, InputDistribution distribution, double degreesOfFreedom) {

    /**
     * Checks the values.
     *
     * @throws IllegalArgumentException if the name is blank or the degrees of freedom are not above 0
     */
    public Input {
        if (name.isBlank()) {
            throw new IllegalArgumentException("an input quantity needs a name");
        }
        Check.degreesOfFreedom(degreesOfFreedom);
    }

    /**
     * Returns an input with the degrees of freedom that its distribution states, infinite for all but Student's.
     *
     * @param name unique within its model, not blank
     * @param distribution what is known of it
     * @return the input
     */
    public static Input of(String name, InputDistribution distribution) {
        return new Input(name, distribution, distribution.degreesOfFreedom());
    }
}
