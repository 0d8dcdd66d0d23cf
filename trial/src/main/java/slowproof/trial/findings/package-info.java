/**
 * From a trial to its findings: passes, cycles, conditions, budget, decision, floor. Relative quantities are
 * ratios, lengths mm, speeds mm/s. Entry point: {@link slowproof.trial.findings.Evaluation}.
 */
@NullMarked
package slowproof.trial.findings;

import org.jspecify.annotations.NullMarked;
