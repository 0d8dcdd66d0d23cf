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

    /**
     * Begins an attempt: it counts as wrong until it succeeded, so that many at once are no more than one after the
     * other.
     *
     * @return how long to wait before it may be made; zero when it may be made now, and counts
     */
    synchronized Duration begin(String name, String place) {
        Duration byName = wait(byName(name), MOST_BY_NAME);
        Duration byPlace = wait(byPlace(place), MOST_BY_PLACE);
        Duration longer = byName.compareTo(byPlace) >= 0 ? byName : byPlace;
        if (longer.isZero()) {
            Instant now = clock.instant();
            wrong.computeIfAbsent(byName(name), key -> new ArrayDeque<>()).addLast(now);
            wrong.computeIfAbsent(byPlace(place), key -> new ArrayDeque<>()).addLast(now);
        }
        return longer;
    }

    private static String byName(String name) {
        return "name " + name;
    }

    private static String byPlace(String place) {
        return "place " + place;
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

    /** Notes a right password: earlier slips of that name are forgiven, and this attempt was none. */
    synchronized void succeeded(String name, String place) {
        wrong.remove(byName(name));
        Deque<Instant> there = wrong.get(byPlace(place));
        if (there != null) {
            there.pollLast();
        }
    }
}
