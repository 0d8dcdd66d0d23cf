package slowproof.archive;

import java.time.Instant;

/**
 * What was worked out from a trial.
 *
 * @param seq number of the last event that it rests on
 * @param kind what it is, such as "findings"
 * @param program version and commit of the program that worked it out
 * @param madeAt when
 * @param sha256 SHA-256 of its content, which is a kept file
 */
public record Result(long seq, String kind, String program, Instant madeAt, String sha256) {}
