/**
 * Decisions against a limit in the presence of uncertainty (JCGM 106, ISO 14253-1). Entry point:
 * {@link slowproof.metrology.conformity.DecisionRule}. Values, uncertainties and limits share one unit, the
 * caller's; probabilities are dimensionless.
 */
@NullMarked
package slowproof.metrology.conformity;

import org.jspecify.annotations.NullMarked;
