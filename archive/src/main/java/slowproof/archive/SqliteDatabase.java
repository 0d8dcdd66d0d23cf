package slowproof.archive;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.Jdbi;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/**
 * The embedded database. Write-ahead log with {@code synchronous=FULL}: a commit has reached the disk before it
 * returns, so what was acknowledged survives the end of the process and, as far as the disk keeps its word, a power
 * cut. Transactions take the write lock at their start, so that two processes on one archive number their events one
 * after the other.
 */
final class SqliteDatabase implements Database {
    private static final int BUSY_TIMEOUT_MS = 10_000;

    private final Connection connection;
    private final Jdbi jdbi;

    private SqliteDatabase(Connection connection) {
        this.connection = connection;
        this.jdbi = Jdbi.create(connection);
    }

    static SqliteDatabase open(Path file) throws SQLException {
        SQLiteConfig config = new SQLiteConfig();
        config.setJournalMode(SQLiteConfig.JournalMode.WAL);
        config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
        config.enforceForeignKeys(true);
        config.setBusyTimeout(BUSY_TIMEOUT_MS);
        config.setTransactionMode(SQLiteConfig.TransactionMode.IMMEDIATE);
        SQLiteDataSource source = new SQLiteDataSource(config);
        source.setUrl("jdbc:sqlite:" + file);
        Migrations.apply(source, Migrations.SQLITE);
        return new SqliteDatabase(source.getConnection());
    }

    @Override
    public synchronized <T> T read(HandleCallback<T, RuntimeException> work) {
        return jdbi.withHandle(work);
    }

    @Override
    public synchronized <T> T write(HandleCallback<T, RuntimeException> work) {
        return jdbi.inTransaction(work);
    }

    @Override
    public synchronized void close() {
        try {
            connection.close();
        } catch (SQLException e) {
            throw new UncheckedIOException(new IOException(e));
        }
    }
}
