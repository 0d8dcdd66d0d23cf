/**
 * Recordings as columns, and the passes in them, standstill to standstill. Units: s, mm, mm/s, mm/s2; shares
 * are ratios. Entry points: {@link slowproof.trial.recording.RecordingAssembler} makes a recording of logged
 * columns, {@link slowproof.trial.recording.PassFinder} finds its passes. Knows no files.
 */
@NullMarked
package slowproof.trial.recording;

import org.jspecify.annotations.NullMarked;
