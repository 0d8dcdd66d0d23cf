package slowproof.archive.account;

import java.time.Instant;

/**
 * An account as it stands.
 *
 * @param name name
 * @param role what it may do
 * @param addedAt when it was added
 * @param changedAt when password, role or closing last changed; a session begun before is over
 * @param closed true when nobody may log in with it
 */
public record Account(String name, Role role, Instant addedAt, Instant changedAt, boolean closed) {}
