/**
 * Published reference cases as data files, the checks against them, and the page that shows the agreement.
 *
 * <p>A case is a JSON file below {@code src/test/resources/reference}; its folder and kind say which {@link
 * slowproof.metrology.reference.CaseEvaluator} computes it. A case file that nobody computes fails the test run.
 */
@NullMarked
package slowproof.metrology.reference;

import org.jspecify.annotations.NullMarked;
