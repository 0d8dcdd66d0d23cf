package slowproof.archive.summary;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import slowproof.trial.findings.Standing;

/**
 * Which trials to list.
 *
 * @param words words that must all occur in title, surfaces, sensor, notes or comments; empty for any
 * @param material words that must all occur in the name of one surface; empty for any
 * @param sensor words that must all occur in name or serial number of the sensor; empty for any
 * @param slowestMmPerS only trials that tested a surface at this speed in mm/s or faster; null for any
 * @param fastestMmPerS only trials that tested a surface at this speed in mm/s or slower; null for any
 * @param standing where one surface must stand; null for any
 * @param attention what the trial must wait for; null for any
 * @param changedFrom first moment of the last entry, ISO 8601 in UTC; empty for any
 * @param changedTo first moment after it, ISO 8601 in UTC; empty for any
 */
public record TrialFilter(
        String words,
        String material,
        String sensor,
        @Nullable Double slowestMmPerS,
        @Nullable Double fastestMmPerS,
        @Nullable Standing standing,
        @Nullable Attention attention,
        String changedFrom,
        String changedTo) {
    /** All trials. */
    public static final TrialFilter ALL = new TrialFilter("", "", "", null, null, null, null, "", "");

    /** In which order to list. The key of each word in the message bundles is {@code order.} and {@link #key()}. */
    public enum Order {
        /** What waits most urgently first, and the last changed first among the same. */
        ATTENTION("coalesce(s.urgency, 0), t.changed_at desc"),
        /** The last changed first. */
        CHANGED("t.changed_at desc"),
        /** By title. */
        TITLE("lower(t.title), t.changed_at desc"),
        /** The slowest tested speed first; without one last. */
        SLOWEST("case when s.slowest is null then 1 else 0 end, s.slowest, t.changed_at desc"),
        /** The slowest speed that holds first; without one last. */
        HOLDS_FROM("case when s.holds_from is null then 1 else 0 end, s.holds_from, t.changed_at desc");

        private final String sql;

        Order(String sql) {
            this.sql = sql;
        }

        /** Returns the columns to order by; the id at last makes the order complete. */
        public String sql() {
            return sql + ", t.id";
        }

        /** Returns the word in addresses, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }
}
