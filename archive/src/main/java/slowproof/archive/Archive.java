package slowproof.archive;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jspecify.annotations.Nullable;
import slowproof.archive.account.Accounts;
import slowproof.archive.sheet.Sheet;

/**
 * All trials of one folder. When a method that records something returns, the record is on the disk. Safe for
 * use by several threads, and by several processes on one folder.
 */
public final class Archive implements AutoCloseable {
    private static final String ID_LETTERS = "abcdefghjkmnpqrstuvwxyz23456789";
    private static final int ID_LENGTH = 12;

    private final Connection connection;
    private final Jdbi jdbi;
    private final FileStore files;
    private final Clock clock;
    private final SecureRandom random = new SecureRandom();

    private Archive(Connection connection, FileStore files, Clock clock) {
        this.connection = connection;
        this.jdbi = Jdbi.create(connection);
        this.files = files;
        this.clock = clock;
    }

    /**
     * Opens the archive of a folder, and makes both when they do not exist.
     *
     * @param folder folder
     * @param clock what the time is
     * @throws UncheckedIOException if the folder cannot be made or written, or holds no archive that can be read
     */
    public static Archive open(Path folder, Clock clock) {
        try {
            Files.createDirectories(folder);
            return new Archive(
                    Database.open(folder.resolve("slowproof.db")), new FileStore(folder.resolve("files")), clock);
        } catch (SQLException e) {
            throw new UncheckedIOException(new IOException(folder + ": " + e.getMessage(), e));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Starts a trial with its first events and returns its id. */
    public synchronized String start(List<NewEvent> events) {
        StringBuilder id = new StringBuilder();
        for (int i = 0; i < ID_LENGTH; i++) {
            id.append(ID_LETTERS.charAt(random.nextInt(ID_LETTERS.length())));
        }
        String trial = id.toString();
        String now = clock.instant().toString();
        jdbi.useTransaction(handle -> {
            handle.execute(
                    "insert into trial (id, started_at, changed_at, title, words) values (?, ?, ?, '', '')",
                    trial,
                    now,
                    now);
            List<NewEvent> all = new ArrayList<>();
            all.add(NewEvent.of(EventKind.STARTED));
            all.addAll(events);
            record(handle, trial, null, all);
        });
        return trial;
    }

    /**
     * Records events of a trial, all or none.
     *
     * @param trial id of the trial
     * @param token what the sender calls this record, so that sending it twice records it once; empty for none
     * @param events what to record
     * @return true when it was recorded now, false when a record with that token was already there
     * @throws UnknownTrialException if there is no such trial
     */
    public synchronized boolean append(String trial, String token, List<NewEvent> events) {
        return jdbi.inTransaction(handle -> {
            requireTrial(handle, trial);
            if (!token.isEmpty() && isRecorded(handle, trial, token)) {
                return false;
            }
            record(handle, trial, token.isEmpty() ? null : token, events);
            return true;
        });
    }

    /** Returns the summaries of all trials, made by the program of that version. */
    public TrialIndex index(String program) {
        return new TrialIndex(this::inTransaction, program);
    }

    private synchronized <T> T inTransaction(Function<Handle, T> work) {
        return jdbi.inTransaction(work::apply);
    }

    private static boolean isRecorded(Handle handle, String trial, String token) {
        return handle.select("select count(*) from event where trial_id = ? and token = ?", trial, token)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }

    private static void requireTrial(Handle handle, String trial) {
        int found = handle.select("select count(*) from trial where id = ?", trial)
                .mapTo(Integer.class)
                .one();
        if (found == 0) {
            throw new UnknownTrialException(trial);
        }
    }

    private void record(Handle handle, String trial, @Nullable String token, List<NewEvent> events) {
        long seq = handle.select("select coalesce(max(seq), 0) from event where trial_id = ?", trial)
                .mapTo(Long.class)
                .one();
        String now = clock.instant().toString();
        boolean first = true;
        for (NewEvent event : events) {
            seq++;
            handle.execute(
                    "insert into event (trial_id, seq, at, kind, fields, token) values (?, ?, ?, ?, ?, ?)",
                    trial,
                    seq,
                    now,
                    event.kind().key(),
                    FieldsText.write(event.fields()),
                    first ? token : null);
            first = false;
        }
        TrialIndex.spoil(handle, trial);
        Sheet sheet = Sheet.of(trial, events(handle, trial));
        handle.execute(
                "update trial set changed_at = ?, title = ?, words = ? where id = ?",
                now,
                sheet.title(),
                sheet.words().toLowerCase(Locale.ROOT),
                trial);
    }

    /**
     * Returns everything recorded of a trial, in the order of recording.
     *
     * @throws UnknownTrialException if there is no such trial
     */
    public synchronized List<Event> events(String trial) {
        return jdbi.withHandle(handle -> {
            List<Event> events = events(handle, trial);
            if (events.isEmpty()) {
                throw new UnknownTrialException(trial);
            }
            return events;
        });
    }

    /**
     * Returns a trial as its events leave it.
     *
     * @throws UnknownTrialException if there is no such trial
     */
    public Sheet sheet(String trial) {
        return Sheet.of(trial, events(trial));
    }

    private static List<Event> events(Handle handle, String trial) {
        return handle.select("select seq, at, kind, fields from event where trial_id = ? order by seq", trial)
                .map((row, context) -> new Event(
                        row.getLong(1),
                        Instant.parse(row.getString(2)),
                        EventKind.of(row.getString(3)),
                        FieldsText.read(row.getString(4))))
                .list();
    }

    /**
     * Returns trials, the last changed first.
     *
     * @param filter words that must all occur in title, materials, sensor or notes; empty for all trials
     * @param from how many to leave out at the start, not negative
     * @param most how many to return at most
     */
    public synchronized List<TrialEntry> trials(String filter, int from, int most) {
        List<String> words = words(filter);
        StringBuilder sql = new StringBuilder("select id, started_at, changed_at, title from trial");
        for (int i = 0; i < words.size(); i++) {
            sql.append(i == 0 ? " where" : " and").append(" words like ? escape '!'");
        }
        sql.append(" order by changed_at desc, id limit ? offset ?");
        List<Object> arguments = new ArrayList<>();
        words.forEach(word -> arguments.add("%" + escaped(word) + "%"));
        arguments.add(most);
        arguments.add(from);
        return jdbi.withHandle(handle -> handle.select(sql.toString(), arguments.toArray())
                .map((row, context) -> new TrialEntry(
                        row.getString(1),
                        Instant.parse(row.getString(2)),
                        Instant.parse(row.getString(3)),
                        row.getString(4)))
                .list());
    }

    private static List<String> words(String filter) {
        String plain = filter.strip().toLowerCase(Locale.ROOT);
        return plain.isEmpty() ? List.of() : List.of(plain.split("\\s+"));
    }

    private static String escaped(String word) {
        return word.replace("!", "!!").replace("%", "!%").replace("_", "!_");
    }

    /**
     * Keeps what stands in fields that have not been sent yet.
     *
     * @param owner whose fields: a trial, or a browser
     * @param fields texts by field; an empty text removes the draft
     */
    public synchronized void keepDrafts(String owner, Map<String, String> fields) {
        String now = clock.instant().toString();
        jdbi.useTransaction(handle -> fields.forEach((field, text) -> {
            if (text.isEmpty()) {
                handle.execute("delete from draft where owner = ? and field = ?", owner, field);
            } else {
                handle.execute(
                        "insert into draft (owner, field, content, at) values (?, ?, ?, ?) on conflict (owner, field)"
                                + " do update set content = excluded.content, at = excluded.at",
                        owner,
                        field,
                        text,
                        now);
            }
        }));
    }

    /** Returns the drafts of an owner by field; empty when there are none. */
    public synchronized Map<String, String> drafts(String owner) {
        return jdbi.withHandle(handle -> {
            Map<String, String> drafts = new LinkedHashMap<>();
            handle.select("select field, content from draft where owner = ? order by field", owner)
                    .map((row, context) -> Map.entry(row.getString(1), row.getString(2)))
                    .forEach(draft -> drafts.put(draft.getKey(), draft.getValue()));
            return drafts;
        });
    }

    /**
     * Keeps a file and returns its SHA-256, 64 hexadecimal digits. The same content is kept once.
     *
     * @throws UncheckedIOException if it cannot be written
     */
    public String keepFile(byte[] content) {
        return files.keep(content);
    }

    /**
     * Returns where a kept file lies, or empty when there is none.
     *
     * @param sha256 64 hexadecimal digits
     */
    public Optional<Path> file(String sha256) {
        return files.find(sha256);
    }

    /** Returns the accounts of those who use the archive from other machines. */
    public Accounts accounts() {
        return new Accounts(jdbi, this, clock);
    }

    /** Closes the database. */
    @Override
    public synchronized void close() {
        try {
            connection.close();
        } catch (SQLException e) {
            throw new UncheckedIOException(new IOException(e));
        }
    }
}
