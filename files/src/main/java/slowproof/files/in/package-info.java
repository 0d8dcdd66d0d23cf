/**
 * Reads trials: the YAML file and the tables it names. Every problem of a file is collected before it is
 * refused. Entry point: {@link slowproof.files.in.TrialReader}.
 */
@NullMarked
package slowproof.files.in;

import org.jspecify.annotations.NullMarked;
