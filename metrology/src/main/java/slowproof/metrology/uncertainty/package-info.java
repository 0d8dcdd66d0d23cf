/**
 * Budgets of standard uncertainty and their combination (JCGM 100), and the propagation of distributions by
 * Monte Carlo (JCGM 101). Entry points: {@link slowproof.metrology.uncertainty.Combined} for a list of
 * independent components. Units are the caller's; nothing here knows what is measured.
 */
@NullMarked
package slowproof.metrology.uncertainty;

import org.jspecify.annotations.NullMarked;
