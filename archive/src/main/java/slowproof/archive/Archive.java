package slowproof.archive;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import slowproof.archive.account.Accounts;
import slowproof.archive.sheet.Sheet;

/**
 * All trials of one place. When a method that records something returns, the record is on the disk. Safe for
 * use by several threads, and by several processes on one archive.
 */
public final class Archive implements AutoCloseable {
    private static final String ID_LETTERS = "abcdefghjkmnpqrstuvwxyz23456789";
    private static final int ID_LENGTH = 12;

    /** Field of an event that names a kept file. */
    private static final String FILE_FIELD = "sha256";

    private final Database database;
    private final FileStore files;
    private final Clock clock;
    private final SecureRandom random = new SecureRandom();

    private Archive(Database database, FileStore files, Clock clock) {
        this.database = database;
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
        return open(new ArchivePlace.Folder(folder), clock);
    }

    /**
     * Opens the archive of a place, and makes it when it does not exist.
     *
     * @param place place
     * @param clock what the time is
     * @throws UncheckedIOException if the place cannot be reached, made or written, holds no archive that can be read,
     *     or the raw files that its database names do not lie in its folder of files
     */
    public static Archive open(ArchivePlace place, Clock clock) {
        try {
            Files.createDirectories(place.files());
            FileStore files = new FileStore(place.files());
            files.tidy(clock.instant());
            Archive archive = new Archive(Databases.open(place), files, clock);
            if (place instanceof ArchivePlace.Shared) {
                archive.requireFiles(place.files());
            }
            return archive;
        } catch (SQLException e) {
            throw new UncheckedIOException(new IOException(place.shown() + ": " + e.getMessage(), e));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A shared database opened with the folder of another one would show trials without their raw files. */
    private void requireFiles(Path folder) throws IOException {
        Optional<String> last = database.read(
                handle -> handle.select("select sha256 from kept_file order by kept_at desc, sha256 limit 1")
                        .mapTo(String.class)
                        .findOne());
        if (last.isPresent() && files.find(last.get()).isEmpty()) {
            close();
            throw new IOException("the database names raw files that do not lie in " + folder.toAbsolutePath()
                    + ", such as " + last.get() + ". Name the folder that belongs to it with --files");
        }
    }

    /** Starts a trial with its first events and returns its id. */
    public String start(List<NewEvent> events) {
        return start("", events);
    }

    /**
     * Starts a trial with its first events and returns its id.
     *
     * @param who name of the person, empty when unknown
     * @param events what to record after the start
     */
    public String start(String who, List<NewEvent> events) {
        StringBuilder id = new StringBuilder();
        for (int i = 0; i < ID_LENGTH; i++) {
            id.append(ID_LETTERS.charAt(random.nextInt(ID_LETTERS.length())));
        }
        String trial = id.toString();
        List<NewEvent> all = new ArrayList<>();
        all.add(NewEvent.of(EventKind.STARTED));
        all.addAll(events);
        database.write(handle -> {
            Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
            handle.execute(
                    "insert into trial (id, started_at, changed_at, title, words) values (?, ?, ?, '', '')",
                    trial,
                    Times.text(now),
                    Times.text(now));
            record(handle, trial, Sending.of("", who, all), now);
            return trial;
        });
        return trial;
    }

    /**
     * Records events of a trial by nobody known, all or none.
     *
     * @param trial id of the trial
     * @param token what the sender calls this record, so that sending it twice records it once; empty for none
     * @param events what to record
     * @return true when it was recorded now, false when a record with that token was already there
     * @throws UnknownTrialException if there is no such trial
     */
    public boolean append(String trial, String token, List<NewEvent> events) {
        return append(trial, Sending.of(token, "", events));
    }

    /**
     * Records events of a trial, all or none.
     *
     * @param trial id of the trial
     * @param sending what to record
     * @return true when it was recorded now, false when a record with that token was already there
     * @throws UnknownTrialException if there is no such trial
     * @throws ChangedMeanwhileException if the trial has events that the sender has not seen
     */
    public boolean append(String trial, Sending sending) {
        return database.write(handle -> {
            lock(handle, trial);
            if (!sending.token().isEmpty() && isRecorded(handle, trial, sending.token())) {
                return false;
            }
            if (sending.seen() != Sending.ANYTHING) {
                List<Event> meanwhile = eventsAfter(handle, trial, sending.seen());
                if (!meanwhile.isEmpty()) {
                    throw new ChangedMeanwhileException(trial, meanwhile);
                }
            }
            record(handle, trial, sending, clock.instant().truncatedTo(ChronoUnit.MICROS));
            return true;
        });
    }

    /** Makes other writers of the trial wait until the transaction ends, on any database. */
    static void lock(Handle handle, String trial) {
        if (handle.execute("update trial set changed_at = changed_at where id = ?", trial) == 0) {
            throw new UnknownTrialException(trial);
        }
    }

    /** Returns the summaries of all trials, made by the program of that version. */
    public TrialIndex index(String program) {
        return new TrialIndex(database, program);
    }

    /** Returns the cards: questions and samples. */
    public Cards cards() {
        return new Cards(database, clock);
    }

    private static boolean isRecorded(Handle handle, String trial, String token) {
        return handle.select("select count(*) from event where trial_id = ? and token = ?", trial, token)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }

    private void record(Handle handle, String trial, Sending sending, Instant now) {
        long seq = handle.select("select coalesce(max(seq), 0) from event where trial_id = ?", trial)
                .mapTo(Long.class)
                .one();
        String token = sending.token();
        for (NewEvent event : sending.events()) {
            seq++;
            insert(
                    handle,
                    trial,
                    new RecordedEvent(new Event(seq, now, sending.who(), event.kind(), event.fields()), token));
            token = "";
        }
        summarise(handle, trial);
    }

    private void insert(Handle handle, String trial, RecordedEvent recorded) {
        Event event = recorded.event();
        String at = Times.text(event.at());
        String file = event.fields().get(FILE_FIELD);
        if (file != null && !file.isEmpty()) {
            noteFile(handle, file, at);
        }
        handle.execute(
                "insert into event (trial_id, seq, at, who, kind, fields, token) values (?, ?, ?, ?, ?, ?, ?)",
                trial,
                event.seq(),
                at,
                event.who(),
                event.kind().key(),
                FieldsText.write(event.fields()),
                recorded.token().isEmpty() ? null : recorded.token());
    }

    /** Writes what the list of trials shows. */
    private static void summarise(Handle handle, String trial) {
        TrialIndex.spoil(handle, trial);
        Sheet sheet = Sheet.of(trial, eventsAfter(handle, trial, 0));
        handle.execute(
                "update trial set changed_at = ?, title = ?, words = ? where id = ?",
                Times.text(sheet.changedAt()),
                storable(sheet.title()),
                storable(sheet.words().toLowerCase(Locale.ROOT)),
                trial);
    }

    /** What names a file is recorded only when the file is there. */
    private void noteFile(Handle handle, String name, String now) {
        Path file =
                files.find(name).orElseThrow(() -> new IllegalStateException("the file " + name + " was never kept"));
        try {
            handle.execute(
                    "insert into kept_file (sha256, bytes, kept_at) values (?, ?, ?) on conflict (sha256) do nothing",
                    name,
                    Files.size(file),
                    now);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private String now() {
        return Times.text(clock.instant());
    }

    /** PostgreSQL takes no character 0 in a text; in the events themselves it is escaped. */
    static String storable(String text) {
        return text.replace('\0', ' ');
    }

    /**
     * Returns everything recorded of a trial, in the order of recording.
     *
     * @throws UnknownTrialException if there is no such trial
     */
    public List<Event> events(String trial) {
        return database.read(handle -> {
            List<Event> events = eventsAfter(handle, trial, 0);
            if (events.isEmpty()) {
                throw new UnknownTrialException(trial);
            }
            return events;
        });
    }

    /**
     * Returns the number of the last event of a trial.
     *
     * @throws UnknownTrialException if there is no such trial
     */
    public long lastSeq(String trial) {
        long last = database.read(
                handle -> handle.select("select coalesce(max(seq), 0) from event where trial_id = ?", trial)
                        .mapTo(Long.class)
                        .one());
        if (last == 0) {
            throw new UnknownTrialException(trial);
        }
        return last;
    }

    /** Returns true when a record with that token is there already. */
    public boolean hasRecorded(String trial, String token) {
        return !token.isEmpty() && database.read(handle -> isRecorded(handle, trial, token));
    }

    /**
     * Returns a trial as its events leave it.
     *
     * @throws UnknownTrialException if there is no such trial
     */
    public Sheet sheet(String trial) {
        return Sheet.of(trial, events(trial));
    }

    private static List<Event> eventsAfter(Handle handle, String trial, long seq) {
        return handle.select(
                        "select seq, at, who, kind, fields from event where trial_id = ? and seq > ? order by seq",
                        trial,
                        seq)
                .map((row, context) -> event(row))
                .list();
    }

    /**
     * Returns everything recorded of a trial, in the order of recording, with the names of the sendings.
     *
     * @throws UnknownTrialException if there is no such trial
     */
    public List<RecordedEvent> recorded(String trial) {
        return database.read(handle -> {
            List<RecordedEvent> events = recorded(handle, trial);
            if (events.isEmpty()) {
                throw new UnknownTrialException(trial);
            }
            return events;
        });
    }

    private static List<RecordedEvent> recorded(Handle handle, String trial) {
        return handle.select(
                        "select seq, at, who, kind, fields, token from event where trial_id = ? order by seq", trial)
                .map((row, context) -> new RecordedEvent(event(row), Objects.requireNonNullElse(row.getString(6), "")))
                .list();
    }

    private static Event event(ResultSet row) throws SQLException {
        return new Event(
                row.getLong(1),
                Instant.parse(row.getString(2)),
                row.getString(3),
                EventKind.of(row.getString(4)),
                FieldsText.read(row.getString(5)));
    }

    /**
     * Takes in a trial from elsewhere: its events as they were recorded there, all or none. Where the trial is here
     * already with the same beginning, what it lacks is added.
     *
     * @param trial id of the trial
     * @param events all its events, numbered from 1; the files they name have been kept
     */
    public TakenIn takeIn(String trial, List<RecordedEvent> events) {
        return database.write(handle -> takenIn(handle, trial, events));
    }

    /**
     * Takes in many trials as {@link #takeIn(String, List)} does, in one transaction: all or none, and much faster than one
     * by one.
     *
     * @param trials events by id of the trial, none of which is here with other events
     * @throws IllegalArgumentException if a trial is here already and went on differently; then nothing is taken in
     */
    public void takeIn(Map<String, List<RecordedEvent>> trials) {
        database.write(handle -> {
            trials.forEach((trial, events) -> {
                if (takenIn(handle, trial, events).outcome() == TakenIn.Outcome.DIFFERS) {
                    throw new IllegalArgumentException("the trial " + trial + " is here already with other events");
                }
            });
            return trials;
        });
    }

    private TakenIn takenIn(Handle handle, String trial, List<RecordedEvent> events) {
        String started = Times.text(events.get(0).event().at());
        boolean made = handle.execute(
                        "insert into trial (id, started_at, changed_at, title, words) values (?, ?, ?, '', '')"
                                + " on conflict (id) do nothing",
                        trial,
                        started,
                        started)
                > 0;
        lock(handle, trial);
        List<RecordedEvent> here = recorded(handle, trial);
        int common = 0;
        while (common < Math.min(here.size(), events.size()) && here.get(common).equals(events.get(common))) {
            common++;
        }
        if (common < here.size() && common < events.size()) {
            return new TakenIn(trial, TakenIn.Outcome.DIFFERS, common + 1L);
        }
        if (common == events.size()) {
            return new TakenIn(trial, TakenIn.Outcome.SAME, here.size());
        }
        for (RecordedEvent recorded : events.subList(common, events.size())) {
            insert(handle, trial, recorded);
        }
        summarise(handle, trial);
        return new TakenIn(trial, made ? TakenIn.Outcome.NEW : TakenIn.Outcome.GROWN, events.size());
    }

    /**
     * Returns trials, the last changed first.
     *
     * @param filter words that must all occur in title, materials, sensor or notes; empty for all trials
     * @param from how many to leave out at the start, not negative
     * @param most how many to return at most
     */
    public List<TrialEntry> trials(String filter, int from, int most) {
        List<String> words = LikeWords.patterns(filter);
        StringBuilder sql = new StringBuilder("select id, started_at, changed_at, title from trial");
        for (int i = 0; i < words.size(); i++) {
            sql.append(i == 0 ? " where" : " and").append(" words like ? escape '!'");
        }
        sql.append(" order by changed_at desc, id limit ? offset ?");
        List<Object> arguments = new ArrayList<>(words);
        arguments.add(most);
        arguments.add(from);
        return database.read(handle -> handle.select(sql.toString(), arguments.toArray())
                .map((row, context) -> entry(row))
                .list());
    }

    /** Returns true when there is a trial whose id begins so; letters and digits only. */
    public boolean hasTrialLike(String beginning) {
        String after =
                beginning.substring(0, beginning.length() - 1) + (char) (beginning.charAt(beginning.length() - 1) + 1);
        return database.read(
                handle -> handle.select("select count(*) from trial where id >= ? and id < ?", beginning, after)
                                .mapTo(Integer.class)
                                .one()
                        > 0);
    }

    /**
     * Returns the trial of an id, else the trials that have all of some words, the last changed first.
     *
     * @param idOrWords id or words; empty for all trials
     * @param most how many to return at most
     */
    public List<TrialEntry> find(String idOrWords, int most) {
        List<TrialEntry> of = database.read(handle -> handle.select(
                        "select id, started_at, changed_at, title from trial where id = ?", idOrWords.strip())
                .map((row, context) -> entry(row))
                .list());
        return of.isEmpty() ? trials(idOrWords, 0, most) : of;
    }

    private static TrialEntry entry(ResultSet row) throws SQLException {
        return new TrialEntry(
                row.getString(1), Instant.parse(row.getString(2)), Instant.parse(row.getString(3)), row.getString(4));
    }

    /**
     * Keeps what stands in fields that have not been sent yet.
     *
     * @param owner whose fields: a trial, or a browser
     * @param fields texts by field; an empty text removes the draft
     */
    public void keepDrafts(String owner, Map<String, String> fields) {
        String now = now();
        database.write(handle -> {
            fields.forEach((field, text) -> keepDraft(handle, owner, field, text, now));
            return fields;
        });
    }

    private static void keepDraft(Handle handle, String owner, String field, String text, String now) {

        if (text.isEmpty()) {
            handle.execute("delete from draft where owner = ? and field = ?", owner, field);
        } else {
            handle.execute(
                    "insert into draft (owner, field, content, at) values (?, ?, ?, ?) on conflict (owner, field)"
                            + " do update set content = excluded.content, at = excluded.at",
                    owner,
                    field,
                    storable(text),
                    now);
        }
    }

    /** Returns the drafts of an owner by field; empty when there are none. */
    public Map<String, String> drafts(String owner) {
        return database.read(handle -> {
            Map<String, String> drafts = new LinkedHashMap<>();
            handle.select("select field, content from draft where owner = ? order by field", owner)
                    .map((row, context) -> Map.entry(row.getString(1), row.getString(2)))
                    .forEach(draft -> drafts.put(draft.getKey(), draft.getValue()));
            return drafts;
        });
    }

    /**
     * Keeps a file and returns its SHA-256, 64 hexadecimal digits. The same content is kept once. It is on the disk
     * when this returns; an event may name it then, in a field {@code sha256}.
     *
     * @throws UncheckedIOException if it cannot be written
     */
    public String keepFile(byte[] content) {
        return files.keep(new ByteArrayInputStream(content));
    }

    /**
     * Keeps a file of any size as {@link #keepFile(byte[])} does.
     *
     * @param content read to its end, not closed
     * @throws UncheckedIOException if it cannot be read or written
     */
    public String keepFile(InputStream content) {
        return files.keep(content);
    }

    /** Returns the folder for files that were sent and are not kept yet; it lies beside those that are. */
    public Path arriving() {
        return files.arriving();
    }

    /**
     * Returns where a kept file lies, or empty when there is none.
     *
     * @param sha256 64 hexadecimal digits
     */
    public Optional<Path> file(String sha256) {
        return files.find(sha256);
    }

    /**
     * Keeps what was worked out from a trial.
     *
     * @param trial id of the trial
     * @param seq number of the last event that it rests on
     * @param kind what it is, such as "findings"
     * @param program version and commit of the program that worked it out
     * @param content the result as a file
     * @return false when this program's result on these events is there already; the content is dropped then
     * @throws UnknownTrialException if there is no such trial
     */
    public boolean keepResult(String trial, long seq, String kind, String program, byte[] content) {
        String name = keepFile(content);
        return database.write(handle -> {
            lock(handle, trial);
            String now = now();
            noteFile(handle, name, now);
            return handle.execute(
                            "insert into result (trial_id, seq, kind, program, made_at, sha256)"
                                    + " values (?, ?, ?, ?, ?, ?) on conflict do nothing",
                            trial,
                            seq,
                            kind,
                            program,
                            now,
                            name)
                    > 0;
        });
    }

    /** Returns true when a program's result on the events of a trial up to one of them is kept. */
    public boolean hasResult(String trial, long seq, String kind, String program) {
        return database.read(handle -> handle.select(
                                "select count(*) from result where trial_id = ? and seq = ? and kind = ? and program = ?",
                                trial,
                                seq,
                                kind,
                                program)
                        .mapTo(Integer.class)
                        .one())
                > 0;
    }

    /** Returns the kept results of a trial by event, kind and time; empty when there are none. */
    public List<Result> results(String trial) {
        return database.read(handle -> handle.select(
                        "select seq, kind, program, made_at, sha256 from result where trial_id = ?"
                                + " order by seq, kind, made_at, program",
                        trial)
                .map((row, context) -> new Result(
                        row.getLong(1),
                        row.getString(2),
                        row.getString(3),
                        Instant.parse(row.getString(4)),
                        row.getString(5)))
                .list());
    }

    /** Returns the accounts of those who use the archive from other machines. */
    public Accounts accounts() {
        return new Accounts(database, clock);
    }

    /** Closes the database. */
    @Override
    public void close() {
        database.close();
    }
}
