package slowproof.archive.summary;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import slowproof.archive.LikeWords;
import slowproof.archive.Times;
import slowproof.trial.evidence.NameLikeness;

/** The conditions of a filter as SQL with its arguments. */
public final class Criteria {
    private final List<String> parts = new ArrayList<>();
    private final List<Object> arguments = new ArrayList<>();

    private Criteria() {}

    /** Returns the criteria of a filter; the tables are {@code trial t} and, where there is one, {@code summary s}. */
    public static Criteria of(TrialFilter filter) {
        Criteria made = new Criteria();
        made.words("t.words", filter.words());
        made.words("s.sensor_key", NameLikeness.key(filter.sensor()));
        made.surface(filter);
        if (filter.attention() != null) {
            made.add("s.attention = ?", filter.attention().key());
        }
        if (!filter.changedFrom().isEmpty()) {
            made.add("t.changed_at >= ?", Times.text(Instant.parse(filter.changedFrom())));
        }
        if (!filter.changedTo().isEmpty()) {
            made.add("t.changed_at < ?", Times.text(Instant.parse(filter.changedTo())));
        }
        return made;
    }

    private void surface(TrialFilter filter) {
        Criteria of = new Criteria();
        of.words("f.material_key", NameLikeness.key(filter.material()));
        if (filter.slowestMmPerS() != null) {
            of.add("f.fastest >= ?", filter.slowestMmPerS());
        }
        if (filter.fastestMmPerS() != null) {
            of.add("f.slowest <= ?", filter.fastestMmPerS());
        }
        if (filter.standing() != null) {
            of.add("f.standing = ?", filter.standing().key());
        }
        if (!of.parts.isEmpty()) {
            parts.add("exists (select 1 from summary_surface f where f.trial_id = t.id and "
                    + String.join(" and ", of.parts) + ")");
            arguments.addAll(of.arguments);
        }
    }

    private void words(String column, String words) {
        LikeWords.patterns(words).forEach(pattern -> add(column + " like ? escape '!'", pattern));
    }

    private void add(String part, Object argument) {
        parts.add(part);
        arguments.add(argument);
    }

    /** Returns the condition, beginning with {@code where}; empty for all. */
    public String where() {
        return parts.isEmpty() ? "" : " where " + String.join(" and ", parts);
    }

    /** Returns the arguments in order, and further ones after them. */
    public Object[] arguments(Object... further) {
        List<Object> all = new ArrayList<>(arguments);
        all.addAll(List.of(further));
        return all.toArray();
    }
}
