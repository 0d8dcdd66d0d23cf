/**
 * Answers a question from what earlier trials have shown: which of them come nearest, what they cover, what they leave
 * open, and what to test next. Speeds in mm/s, accelerations in mm/s2, lengths in mm, errors as ratios. Knows no
 * archive: evidence is handed in.
 */
@NullMarked
package slowproof.trial.evidence;

import org.jspecify.annotations.NullMarked;
