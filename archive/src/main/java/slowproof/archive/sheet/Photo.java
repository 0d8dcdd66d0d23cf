package slowproof.archive.sheet;

import java.time.Instant;

/**
 * A photo that goes with a trial.
 *
 * @param seq number of its event
 * @param at when it was added
 * @param sha256 SHA-256 of its content
 * @param name name of the file as it was sent
 * @param type media type found in its content
 * @param bytes size in bytes
 */
public record Photo(long seq, Instant at, String sha256, String name, String type, long bytes) {}
