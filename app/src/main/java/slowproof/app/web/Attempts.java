package slowproof.app.web;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Counts wrong passwords, by name and by where they came from, so that guessing is slow. Behind a proxy everybody
 * comes from one place; that bound is therefore wide. Safe for use by several threads.
 */
final class Attempts {
    static final int MOST_BY_NAME = 5;
    static final int MOST_BY_PLACE = 60;
    static final Duration WITHIN = Duration.ofMinutes(15);
    // a stream of invented names must not fill the memory: the oldest are forgotten
    private static final int MOST_KEPT = 10_000;

    private final Clock clock;
    private final Map<String, Deque<Instant>> wrong = new LinkedHashMap<>() {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Deque<Instant>> eldest) {
            return size() > MOST_KEPT;
        }
    };

    Attempts(Clock clock) {
        this.clock = clock;
    }

    /** Returns how long to wait before the next attempt; zero when it may be made now. */
    synchronized Duration wait(String name, String place) {
        Duration byName = wait("name " + name, MOST_BY_NAME);
        Duration byPlace = wait("place " + place, MOST_BY_PLACE);
        return byName.compareTo(byPlace) >= 0 ? byName : byPlace;
    }

    private Duration wait(String key, int most) {
        Deque<Instant> times = wrong.get(key);
        if (times == null) {
            return Duration.ZERO;
        }
        Instant now = clock.instant();
        while (!times.isEmpty() && !times.getFirst().plus(WITHIN).isAfter(now)) {
            times.removeFirst();
        }
        return times.size() < most
                ? Duration.ZERO
                : Duration.between(now, times.getFirst().plus(WITHIN));
    }

    /** Notes a wrong password. */
    synchronized void failed(String name, String place) {
        Instant now = clock.instant();
        wrong.computeIfAbsent("name " + name, key -> new ArrayDeque<>()).addLast(now);
        wrong.computeIfAbsent("place " + place, key -> new ArrayDeque<>()).addLast(now);
    }

    /** Notes a right password: earlier slips of that name are forgiven. */
    synchronized void succeeded(String name) {
        wrong.remove("name " + name);
    }
}
