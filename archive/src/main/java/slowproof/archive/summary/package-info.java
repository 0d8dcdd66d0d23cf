/**
 * What lists and searches need of a trial, derived from its events and findings, so that ten thousand trials can be
 * searched without evaluating one. Speeds in mm/s, accelerations in mm/s2, lengths in mm, errors as ratios.
 *
 * <p>Entry point: {@link slowproof.archive.summary.TrialSummary}.
 */
@NullMarked
package slowproof.archive.summary;

import org.jspecify.annotations.NullMarked;
