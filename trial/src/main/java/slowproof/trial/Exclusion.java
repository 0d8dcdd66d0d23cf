package slowproof.trial;

import slowproof.trial.input.SourcePosition;

/**
 * A person's decision to leave a pass out of the results; the pass stays in the record.
 *
 * @param pass id of the pass, such as "felt-63/4"
 * @param reason why, in the person's words
 * @param at where it is written
 */
public record Exclusion(String pass, String reason, SourcePosition at) {}
