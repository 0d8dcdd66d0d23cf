package slowproof.app.web;

import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import slowproof.archive.account.Account;

/**
 * Who is logged in. Kept in memory only: after a restart everybody logs in again. A session ends after half a day
 * without a request, after a week, when the account changes, or by logging out. Safe for use by several threads.
 */
final class Sessions {
    static final Duration IDLE = Duration.ofHours(12);
    static final Duration LONGEST = Duration.ofDays(7);
    private static final int SECRET_BYTES = 32;

    private final Map<String, Session> sessions = new ConcurrentHashMap<>();
    private final SecureRandom random = new SecureRandom();
    private final Clock clock;

    Sessions(Clock clock) {
        this.clock = clock;
    }

    /**
     * One session.
     *
     * @param name account
     * @param token secret of its forms
     * @param accountChangedAt state of the account when it began
     * @param began when it began
     * @param last when the last request came
     */
    record Session(String name, String token, Instant accountChangedAt, Instant began, Instant last) {
        Session seen(Instant now) {
            return new Session(name, token, accountChangedAt, began, now);
        }

        boolean isOver(Instant now) {
            return now.isAfter(last.plus(IDLE)) || now.isAfter(began.plus(LONGEST));
        }
    }

    /** Begins a session and returns its secret name, 64 hexadecimal digits, never used before. */
    String begin(Account account) {
        Instant now = clock.instant();
        sessions.values().removeIf(session -> session.isOver(now));
        String id = secret();
        sessions.put(id, new Session(account.name(), secret(), account.changedAt(), now, now));
        return id;
    }

    /** Returns a session that is not over, and notes that a request came. */
    Optional<Session> find(String id) {
        Instant now = clock.instant();
        return Optional.ofNullable(
                sessions.computeIfPresent(id, (key, session) -> session.isOver(now) ? null : session.seen(now)));
    }

    void end(String id) {
        sessions.remove(id);
    }

    private String secret() {
        byte[] bytes = new byte[SECRET_BYTES];
        random.nextBytes(bytes);
        return HexFormat.of().formatHex(bytes);
    }
}
