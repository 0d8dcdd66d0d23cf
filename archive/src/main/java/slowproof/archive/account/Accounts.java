package slowproof.archive.account;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.HandleCallback;
import slowproof.archive.Database;

/** The accounts of an archive. Passwords are kept as Argon2id hashes only. Safe for use by several threads. */
public final class Accounts {
    private static final String COLUMNS = "select name, role, added_at, changed_at, closed from account";
    private static final String NAME = "[\\p{L}\\p{N}._-]{1,60}";

    private final Database database;
    private final Clock clock;

    /**
     * Looks after the accounts of a database.
     *
     * @param database database with the table of accounts
     * @param clock what the time is
     */
    public Accounts(Database database, Clock clock) {
        this.database = database;
        this.clock = clock;
    }

    /**
     * Adds an account.
     *
     * @throws AccountRefusedException if the name is taken or not allowed, or the password is not good enough
     */
    public void add(String name, Role role, String password) {
        if (!name.matches(NAME)) {
            throw new AccountRefusedException(AccountRefusedException.Why.NAME);
        }
        PasswordRule.check(name, password);
        String hash = PasswordHash.of(password);
        String now = clock.instant().toString();
        int added = database.write(handle -> handle.execute(
                "insert into account (name, role, hash, added_at, changed_at, closed) values (?, ?, ?, ?, ?, 0)"
                        + " on conflict (name) do nothing",
                name,
                role.key(),
                hash,
                now,
                now));
        if (added == 0) {
            throw new AccountRefusedException(AccountRefusedException.Why.TAKEN);
        }
    }

    /** Returns the open account whose name and password these are, or empty; both take equally long. */
    public Optional<Account> check(String name, String password) {
        // account and hash in one look: a password changed meanwhile must not leave a session of the old one behind
        Optional<Map.Entry<Account, String>> found = query(handle -> handle.select(
                        "select name, role, added_at, changed_at, closed, hash from account where name = ?", name)
                .map((row, context) -> Map.entry(account(row), row.getString(6)))
                .findOne());
        boolean fits =
                PasswordHash.matches(password, found.map(Map.Entry::getValue).orElseGet(() -> Nobody.HASH));
        return found.map(Map.Entry::getKey).filter(account -> fits && !account.closed());
    }

    /** Returns an account, closed ones too, or empty. */
    public Optional<Account> find(String name) {
        return query(handle -> find(handle, name));
    }

    /** Returns all accounts by name, closed ones too. */
    public List<Account> all() {
        return query(handle -> handle.select(COLUMNS + " order by name")
                .map((row, context) -> account(row))
                .list());
    }

    /**
     * Gives an account another password; its sessions are over.
     *
     * @throws AccountRefusedException if there is no such account, or the password is not good enough
     */
    public void setPassword(String name, String password) {
        PasswordRule.check(name, password);
        change(name, false, "hash = ?", PasswordHash.of(password));
    }

    /**
     * Gives an account another role; its sessions are over.
     *
     * @throws AccountRefusedException if there is no such account, or no open account would be left that may change accounts
     */
    public void setRole(String name, Role role) {
        change(name, role != Role.ADMIN, "role = ?", role.key());
    }

    /**
     * Closes an account or opens it again; its sessions are over.
     *
     * @throws AccountRefusedException if there is no such account, or no open account would be left that may change accounts
     */
    public void setClosed(String name, boolean closed) {
        change(name, closed, "closed = ?", closed ? 1 : 0);
    }

    private void change(String name, boolean needsAnotherAdmin, String what, Object value) {
        database.write(handle -> {
            // one change of accounts at a time on any database, so that two admins cannot close each other
            handle.execute("update account set closed = closed where role = 'admin'");
            Account account = find(handle, name)
                    .orElseThrow(() -> new AccountRefusedException(AccountRefusedException.Why.UNKNOWN));
            if (needsAnotherAdmin && isLastAdmin(handle, account)) {
                throw new AccountRefusedException(AccountRefusedException.Why.LAST_ADMIN);
            }
            return handle.execute(
                    "update account set " + what + ", changed_at = ? where name = ?",
                    value,
                    later(account).toString(),
                    name);
        });
    }

    /** Never the same instant twice, so that a session always tells that its account changed. */
    private Instant later(Account account) {
        Instant now = clock.instant();
        return now.isAfter(account.changedAt()) ? now : account.changedAt().plusNanos(1);
    }

    private static boolean isLastAdmin(Handle handle, Account account) {
        return account.role() == Role.ADMIN
                && !account.closed()
                && handle.select("select count(*) from account where role = 'admin' and closed = 0")
                                .mapTo(Integer.class)
                                .one()
                        == 1;
    }

    private static Optional<Account> find(Handle handle, String name) {
        return handle.select(COLUMNS + " where name = ?", name)
                .map((row, context) -> account(row))
                .findOne();
    }

    private <T> T query(HandleCallback<T, RuntimeException> question) {
        return database.read(question);
    }

    private static Account account(ResultSet row) throws SQLException {
        return new Account(
                row.getString(1),
                Role.of(row.getString(2)).orElse(Role.READ),
                Instant.parse(row.getString(3)),
                Instant.parse(row.getString(4)),
                row.getInt(5) != 0);
    }

    /** A name that does not exist must take as long as one that does. */
    private static final class Nobody {
        static final String HASH = PasswordHash.of("nobody has this password");
    }
}
