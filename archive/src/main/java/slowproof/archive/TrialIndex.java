package slowproof.archive;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jdbi.v3.core.Handle;
import slowproof.archive.summary.Attention;
import slowproof.archive.summary.ConditionSummary;
import slowproof.archive.summary.Criteria;
import slowproof.archive.summary.SurfaceSummary;
import slowproof.archive.summary.TrialFilter;
import slowproof.archive.summary.TrialRow;
import slowproof.archive.summary.TrialSummary;
import slowproof.trial.evidence.Evidence;
import slowproof.trial.evidence.NameLikeness;

/**
 * The summaries of all trials. They are derived: whoever records events of a trial makes its summary out of date, and
 * a summary that another version of the program made is out of date too. {@link #outOfDate} tells which.
 */
public final class TrialIndex {
    private static final String ROWS = "select t.id, t.started_at, t.changed_at, t.title, s.program, s.attention,"
            + " s.passes, s.sensor from trial t left join summary s on s.trial_id = t.id";

    private final Database database;
    private final String program;

    TrialIndex(Database database, String program) {
        this.database = database;
        this.program = program;
    }

    /** Marks the summary of a trial as out of date, in the transaction that records its events. */
    static void spoil(Handle handle, String trial) {
        handle.execute("update summary set program = '' where trial_id = ?", trial);
    }

    /** Returns trials whose summary is missing or out of date, the last changed first. */
    public List<String> outOfDate(int most) {
        return database.read(handle -> handle.select(
                        "select t.id from trial t left join summary s on s.trial_id = t.id"
                                + " where s.program is null or s.program <> ? order by t.changed_at desc limit ?",
                        program,
                        most)
                .mapTo(String.class)
                .list());
    }

    /** Returns how many summaries are missing or out of date. */
    public int countOutOfDate() {
        return database.read(handle -> handle.select(
                        "select (select count(*) from trial) - (select count(*) from summary where program = ?)",
                        program)
                .mapTo(Integer.class)
                .one());
    }

    /**
     * Keeps a summary.
     *
     * @return false when the trial has changed since the summary was made, which is then not kept
     */
    public boolean keep(TrialSummary summary) {
        return database.write(handle -> kept(handle, summary));
    }

    /** Keeps summaries as {@link #keep(TrialSummary)} does, in one transaction. */
    public void keep(List<TrialSummary> summaries) {
        database.write(handle -> {
            summaries.forEach(summary -> kept(handle, summary));
            return summaries;
        });
    }

    private boolean kept(Handle handle, TrialSummary summary) {
        String trial = summary.trial();
        Archive.lock(handle, trial);
        long seq = handle.select("select coalesce(max(seq), 0) from event where trial_id = ?", trial)
                .mapTo(Long.class)
                .one();
        if (seq != summary.seq()) {
            return false;
        }
        for (String table : List.of("summary_condition", "summary_surface", "summary")) {
            handle.execute("delete from " + table + " where trial_id = ?", trial);
        }
        handle.execute(
                "insert into summary (trial_id, program, attention, urgency, passes, sensor, sensor_key, standing,"
                        + " slowest, fastest, holds_from) values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                trial,
                program,
                summary.attention().key(),
                summary.attention().urgency(),
                summary.passes(),
                Archive.storable(summary.sensor()),
                NameLikeness.key(Archive.storable(summary.sensor())),
                summary.standing().key(),
                summary.slowestMmPerS(),
                summary.fastestMmPerS(),
                summary.holdsFromMmPerS());
        for (int place = 0; place < summary.surfaces().size(); place++) {
            SummaryTables.insert(handle, trial, place, summary.surfaces().get(place));
        }
        return true;
    }

    /** Returns how many trials a filter lets through. */
    public int count(TrialFilter filter) {
        Criteria criteria = Criteria.of(filter);
        return database.read(handle -> handle.select(
                        "select count(*) from trial t left join summary s on s.trial_id = t.id" + criteria.where(),
                        criteria.arguments())
                .mapTo(Integer.class)
                .one());
    }

    /**
     * Returns rows of the list.
     *
     * @param filter which trials
     * @param order in which order
     * @param from how many to leave out at the start, not negative
     * @param most how many to return at most
     */
    public List<TrialRow> rows(TrialFilter filter, TrialFilter.Order order, int from, int most) {
        Criteria criteria = Criteria.of(filter);
        return database.read(handle -> {
            List<TrialRow> rows = handle.select(
                            ROWS + criteria.where() + " order by " + order.sql() + " limit ? offset ?",
                            criteria.arguments(most, from))
                    .map((row, context) -> row(row))
                    .list();
            Map<String, List<SurfaceSummary>> surfaces =
                    surfaces(handle, rows.stream().map(row -> row.entry().id()).toList());
            return rows.stream()
                    .map(row -> new TrialRow(
                            row.entry(),
                            row.known(),
                            row.attention(),
                            row.passes(),
                            row.sensor(),
                            surfaces.getOrDefault(row.entry().id(), List.of())))
                    .toList();
        });
    }

    private TrialRow row(ResultSet row) throws SQLException {
        TrialEntry entry = new TrialEntry(
                row.getString(1), Instant.parse(row.getString(2)), Instant.parse(row.getString(3)), row.getString(4));
        boolean any = row.getString(5) != null;
        return new TrialRow(
                entry,
                program.equals(row.getString(5)),
                any ? Attention.valueOf(row.getString(6).toUpperCase(Locale.ROOT)) : Attention.NONE,
                row.getInt(7),
                any ? row.getString(8) : "",
                List.of());
    }

    /** Returns how many trials wait for what; only what some trial waits for. */
    public Map<Attention, Integer> waiting() {
        return database.read(handle -> {
            Map<Attention, Integer> waiting = new LinkedHashMap<>();
            handle.select("select attention, count(*) from summary group by attention, urgency order by urgency")
                    .map((row, context) ->
                            Map.entry(Attention.valueOf(row.getString(1).toUpperCase(Locale.ROOT)), row.getInt(2)))
                    .forEach(one -> waiting.put(one.getKey(), one.getValue()));
            waiting.remove(Attention.NONE);
            return waiting;
        });
    }

    private static Map<String, List<SurfaceSummary>> surfaces(Handle handle, List<String> trials) {
        Map<String, List<SurfaceSummary>> surfaces = new LinkedHashMap<>();
        if (trials.isEmpty()) {
            return surfaces;
        }
        handle.select(
                        "select * from summary_surface where trial_id in (" + marks(trials.size())
                                + ") order by trial_id, place",
                        trials.toArray())
                .map((row, context) -> Map.entry(row.getString("trial_id"), SummaryTables.surface(row)))
                .forEach(one -> surfaces.computeIfAbsent(one.getKey(), id -> new ArrayList<>())
                        .add(one.getValue()));
        return surfaces;
    }

    /**
     * Returns the names of the set-ups with which each surface of some trials was tried.
     *
     * @param trials ids of trials
     * @return by id of the trial, by number of the surface; trials without a pass are absent
     */
    public Map<String, Map<Integer, List<String>>> setups(List<String> trials) {
        Map<String, Map<Integer, List<String>>> setups = new LinkedHashMap<>();
        if (trials.isEmpty()) {
            return setups;
        }
        database.read(handle -> handle.select(
                                "select distinct trial_id, place, setup from summary_condition where trial_id in ("
                                        + marks(trials.size()) + ") order by trial_id, place, setup",
                                trials.toArray())
                        .map((row, context) -> Map.entry(row.getString(1), Map.entry(row.getInt(2), row.getString(3))))
                        .list())
                .forEach(one -> setups.computeIfAbsent(one.getKey(), id -> new LinkedHashMap<>())
                        .computeIfAbsent(one.getValue().getKey(), place -> new ArrayList<>())
                        .add(one.getValue().getValue()));
        return setups;
    }

    /** Returns the names under which surfaces were tried, each with the way it is compared. */
    public Map<String, String> materials() {
        return database.read(handle -> {
            Map<String, String> materials = new LinkedHashMap<>();
            handle.select("select material_key, min(material) from summary_surface group by material_key"
                            + " order by material_key")
                    .map((row, context) -> Map.entry(row.getString(1), row.getString(2)))
                    .forEach(one -> materials.put(one.getKey(), one.getValue()));
            return materials;
        });
    }

    /**
     * Returns every surface of one of the given names, the last changed first.
     *
     * @param keys names as {@link NameLikeness#key} writes them
     */
    public List<Near> near(Set<String> keys) {
        if (keys.isEmpty()) {
            return List.of();
        }
        List<Near> near = database.read(handle -> handle.select(
                        "select f.trial_id, f.place, t.changed_at, f.material, f.slowest, f.fastest,"
                                + " f.slowest_acceleration, f.fastest_acceleration, f.shortest, f.longest,"
                                + " f.reference_known from summary_surface f join trial t on t.id = f.trial_id"
                                + " where f.material_key in (" + marks(keys.size()) + ")",
                        keys.toArray())
                .map((row, context) -> new Near(
                        row.getString(1),
                        row.getInt(2),
                        row.getString(3),
                        new Evidence(
                                row.getString(4),
                                row.getDouble(5),
                                row.getDouble(6),
                                SummaryTables.number(row, 7),
                                SummaryTables.number(row, 8),
                                row.getDouble(9),
                                row.getDouble(10),
                                row.getInt(11) == 1,
                                List.of())))
                .list());
        return near.stream().sorted(Near.LAST_CHANGED_FIRST).toList();
    }

    /** Returns a surface of a trial with its conditions; nothing when its summary is being made anew. */
    public Optional<Tried> tried(String trial, int place) {
        return database.read(handle -> {
            List<ConditionSummary> conditions = handle.select(
                            "select * from summary_condition where trial_id = ? and place = ? order by row_number",
                            trial,
                            place)
                    .map((row, context) -> SummaryTables.condition(row))
                    .list();
            return handle.select(
                            "select f.*, t.started_at, t.changed_at, t.title from summary_surface f"
                                    + " join trial t on t.id = f.trial_id where f.trial_id = ? and f.place = ?",
                            trial,
                            place)
                    .map((row, context) -> new Tried(
                            new TrialEntry(
                                    trial,
                                    Instant.parse(row.getString("started_at")),
                                    Instant.parse(row.getString("changed_at")),
                                    row.getString("title")),
                            place,
                            SummaryTables.surface(row).with(conditions)))
                    .findOne();
        });
    }

    private static String marks(int count) {
        return String.join(", ", Collections.nCopies(count, "?"));
    }
}
