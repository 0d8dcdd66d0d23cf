package slowproof.archive;

import java.security.SecureRandom;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.UnableToExecuteStatementException;
import org.jspecify.annotations.Nullable;
import slowproof.archive.desk.CardEntry;
import slowproof.archive.desk.CardEvent;
import slowproof.archive.desk.CardFace;
import slowproof.archive.desk.CardFilter;
import slowproof.archive.desk.CardKind;

/** The cards of an archive: questions and samples. When a method that records something returns, the record is on the disk. */
public final class Cards {
    private static final String ENTRY = "select id, number, started_at, changed_at, is_open, due, title from card";

    /** Two processes may take the same number at the same time; the second takes the next. */
    private static final int TRIES = 5;

    private final Database database;
    private final Clock clock;
    private final SecureRandom random = new SecureRandom();

    Cards(Database database, Clock clock) {
        this.database = database;
        this.clock = clock;
    }

    /**
     * Starts a card with its first event.
     *
     * @param kind what it is
     * @param token what the sender calls this record, so that sending it twice starts one card; empty for none
     * @param event kind of the event
     * @param fields what was typed
     * @return its number
     */
    public int start(CardKind kind, String token, String event, Map<String, String> fields) {
        for (int i = 1; ; i++) {
            try {
                return database.write(handle -> started(handle, kind, token, event, fields));
            } catch (UnableToExecuteStatementException e) {
                if (i == TRIES) {
                    throw e;
                }
            }
        }
    }

    private int started(Handle handle, CardKind kind, String token, String event, Map<String, String> fields) {
        if (!token.isEmpty()) {
            Optional<Integer> before = handle.select(
                            "select c.number from card c join card_event e on e.card_id = c.id"
                                    + " where c.kind = ? and e.seq = 1 and e.token = ?",
                            kind.key(),
                            token)
                    .mapTo(Integer.class)
                    .findOne();
            if (before.isPresent()) {
                return before.get();
            }
        }
        int number = handle.select("select coalesce(max(number), 0) + 1 from card where kind = ?", kind.key())
                .mapTo(Integer.class)
                .one();
        String id = made(handle, kind, number, clock.instant());
        record(handle, kind, id, token.isEmpty() ? null : token, event, fields);
        return number;
    }

    private String made(Handle handle, CardKind kind, int number, Instant now) {
        String id = String.format(Locale.ROOT, "%016x", random.nextLong());
        handle.execute(
                "insert into card (id, kind, number, started_at, changed_at, is_open, due, title, words)"
                        + " values (?, ?, ?, ?, ?, 1, '', '', '')",
                id,
                kind.key(),
                number,
                Times.text(now),
                Times.text(now));
        return id;
    }

    /**
     * Takes in cards with everything that was recorded of each, all or none. They get the next numbers.
     *
     * @param kind what they are
     * @param cards events of each card, numbered from 1, with their own times
     */
    public void takeIn(CardKind kind, List<List<CardEvent>> cards) {
        database.write(handle -> {
            int number = handle.select("select coalesce(max(number), 0) from card where kind = ?", kind.key())
                    .mapTo(Integer.class)
                    .one();
            for (List<CardEvent> events : cards) {
                number++;
                String id = made(handle, kind, number, events.get(0).at());
                events.forEach(event -> insert(handle, id, event, null));
                show(handle, kind, id, events);
            }
            return number;
        });
    }

    /**
     * Records an event of a card.
     *
     * @param kind what it is
     * @param number its number
     * @param token what the sender calls this record, so that sending it twice records it once; empty for none
     * @param event kind of the event
     * @param fields what was typed
     * @return false when there is no such card
     */
    public boolean append(CardKind kind, int number, String token, String event, Map<String, String> fields) {
        return append(kind, number, Long.MAX_VALUE, token, event, fields);
    }

    /**
     * Records an event of a card as {@link #append(CardKind, int, String, String, Map)} does, on a state that the sender has
     * seen.
     *
     * @param kind what it is
     * @param number its number
     * @param seen number of the last event that the sender has seen
     * @param token what the sender calls this record, so that sending it twice records it once; empty for none
     * @param event kind of the event
     * @param fields what was typed
     * @return false when there is no such card
     * @throws CardChangedException if the card has events that the sender has not seen
     */
    public boolean append(
            CardKind kind, int number, long seen, String token, String event, Map<String, String> fields) {
        return database.write(handle -> {
            Optional<String> id = id(handle, kind, number);
            if (id.isEmpty()) {
                return false;
            }
            // held until the end: two who record at once must not count the same next number
            handle.execute("update card set changed_at = changed_at where id = ?", id.get());
            if (!isRecorded(handle, id.get(), token)) {
                List<CardEvent> unseen = events(handle, id.get()).stream()
                        .filter(one -> one.seq() > seen)
                        .toList();
                if (!unseen.isEmpty()) {
                    throw new CardChangedException(number, unseen);
                }
                record(handle, kind, id.get(), token.isEmpty() ? null : token, event, fields);
            }
            return true;
        });
    }

    /** Returns true when a record of a card with that token is there. */
    public boolean hasRecorded(CardKind kind, int number, String token) {
        return database.read(handle -> id(handle, kind, number)
                .filter(id -> isRecorded(handle, id, token))
                .isPresent());
    }

    private static boolean isRecorded(Handle handle, String id, String token) {
        return !token.isEmpty()
                && handle.select("select count(*) from card_event where card_id = ? and token = ?", id, token)
                                .mapTo(Integer.class)
                                .one()
                        > 0;
    }

    private static Optional<String> id(Handle handle, CardKind kind, int number) {
        return handle.select("select id from card where kind = ? and number = ?", kind.key(), number)
                .mapTo(String.class)
                .findOne();
    }

    private void record(
            Handle handle, CardKind kind, String id, @Nullable String token, String event, Map<String, String> fields) {
        List<CardEvent> events = new ArrayList<>(events(handle, id));
        CardEvent next =
                new CardEvent(events.size() + 1L, clock.instant().truncatedTo(ChronoUnit.MICROS), event, fields);
        events.add(next);
        insert(handle, id, next, token);
        show(handle, kind, id, events);
    }

    private static void insert(Handle handle, String id, CardEvent event, @Nullable String token) {
        handle.execute(
                "insert into card_event (card_id, seq, at, kind, fields, token) values (?, ?, ?, ?, ?, ?)",
                id,
                event.seq(),
                Times.text(event.at()),
                event.kind(),
                FieldsText.write(event.fields()),
                token);
    }

    /** Writes what lists show. */
    private static void show(Handle handle, CardKind kind, String id, List<CardEvent> events) {
        CardFace face = CardFace.of(kind, events);
        handle.execute(
                "update card set changed_at = ?, is_open = ?, due = ?, title = ?, words = ? where id = ?",
                Times.text(events.get(events.size() - 1).at()),
                face.open() ? 1 : 0,
                face.due(),
                Archive.storable(face.title()),
                Archive.storable(face.words().toLowerCase(Locale.ROOT)),
                id);
        handle.execute("delete from card_trial where card_id = ?", id);
        face.trials()
                .forEach(
                        trial -> handle.execute("insert into card_trial (card_id, trial_id) values (?, ?)", id, trial));
    }

    private static List<CardEvent> events(Handle handle, String id) {
        return handle.select("select seq, at, kind, fields from card_event where card_id = ? order by seq", id)
                .map((row, context) -> new CardEvent(
                        row.getLong(1),
                        Instant.parse(row.getString(2)),
                        row.getString(3),
                        FieldsText.read(row.getString(4))))
                .list();
    }

    /** Returns everything recorded of a card in the order of recording, or nothing when there is no such card. */
    public List<CardEvent> events(CardKind kind, int number) {
        return database.read(
                handle -> id(handle, kind, number).map(id -> events(handle, id)).orElse(List.of()));
    }

    /**
     * Returns cards, the open ones first, the soonest due first among them, then the last changed.
     *
     * @param kind what they are
     * @param filter which of them
     * @param from how many to leave out at the start, not negative
     * @param most how many to return at most
     */
    public List<CardEntry> list(CardKind kind, CardFilter filter, int from, int most) {
        List<Object> arguments = new ArrayList<>();
        String where = where(kind, filter, arguments);
        arguments.add(most);
        arguments.add(from);
        return database.read(handle -> handle.select(
                        ENTRY + where + " order by is_open desc, case when is_open = 0 or due = '' then 1 else 0 end,"
                                + " case when is_open = 0 then '' else due end, changed_at desc, number limit ? offset ?",
                        arguments.toArray())
                .map((row, context) -> entry(row))
                .list());
    }

    /** Returns how many cards a filter lets through. */
    public int count(CardKind kind, CardFilter filter) {
        List<Object> arguments = new ArrayList<>();
        String where = where(kind, filter, arguments);
        return database.read(handle -> handle.select("select count(*) from card" + where, arguments.toArray())
                .mapTo(Integer.class)
                .one());
    }

    private static String where(CardKind kind, CardFilter filter, List<Object> arguments) {
        StringBuilder sql = new StringBuilder(" where kind = ?");
        arguments.add(kind.key());
        for (String pattern : LikeWords.patterns(filter.words())) {
            sql.append(" and words like ? escape '!'");
            arguments.add(pattern);
        }
        switch (filter.state()) {
            case ANY -> {}
            case OPEN -> sql.append(" and is_open = 1");
            case DONE -> sql.append(" and is_open = 0");
            case OVERDUE -> {
                sql.append(" and is_open = 1 and due <> '' and due < ?");
                arguments.add(filter.day());
            }
        }
        return sql.toString();
    }

    /**
     * Returns the open cards that are due, the soonest first.
     *
     * @param kind what they are
     * @param day last day that counts, ISO 8601
     */
    public List<CardEntry> due(CardKind kind, String day) {
        return database.read(handle -> handle.select(
                        ENTRY + " where kind = ? and is_open = 1 and due <> '' and due <= ? order by due, number",
                        kind.key(),
                        day)
                .map((row, context) -> entry(row))
                .list());
    }

    /** Returns the cards of a kind that belong to a trial, by number. */
    public List<CardEntry> ofTrial(CardKind kind, String trial) {
        return database.read(handle -> handle.select(
                        ENTRY + " where kind = ? and id in (select card_id from card_trial where trial_id = ?)"
                                + " order by number",
                        kind.key(),
                        trial)
                .map((row, context) -> entry(row))
                .list());
    }

    private static CardEntry entry(ResultSet row) throws SQLException {
        return new CardEntry(
                row.getString(1),
                row.getInt(2),
                Instant.parse(row.getString(3)),
                Instant.parse(row.getString(4)),
                row.getInt(5) == 1,
                row.getString(6),
                row.getString(7));
    }
}
