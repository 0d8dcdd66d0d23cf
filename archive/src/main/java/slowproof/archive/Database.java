package slowproof.archive;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Properties;
import org.flywaydb.core.Flyway;
import org.sqlite.SQLiteConfig;

/**
 * Opens the embedded database. Write-ahead log with {@code synchronous=FULL}: a commit has reached the disk
 * before it returns, so what was acknowledged survives the end of the process and, as far as the disk keeps its
 * word, a power cut. Transactions take the write lock at their start, so that two processes on one archive
 * number their events one after the other.
 */
final class Database {
    /** Version of the newest file in the migration folder. */
    static final String SCHEMA_VERSION = "20";

    private static final String MIGRATIONS = "classpath:slowproof/archive/migration";
    private static final int BUSY_TIMEOUT_MS = 10_000;

    private Database() {}

    static Connection open(Path file) throws SQLException {
        SQLiteConfig config = new SQLiteConfig();
        config.setJournalMode(SQLiteConfig.JournalMode.WAL);
        config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
        config.enforceForeignKeys(true);
        config.setBusyTimeout(BUSY_TIMEOUT_MS);
        config.setTransactionMode(SQLiteConfig.TransactionMode.IMMEDIATE);
        Properties properties = config.toProperties();
        String url = "jdbc:sqlite:" + file;
        Connection connection = DriverManager.getConnection(url, properties);
        if (!isCurrent(connection)) {
            // Flyway is loaded only when there is something to migrate: it would double the time of an ordinary start
            Flyway.configure()
                    .dataSource(url, null, null)
                    .locations(MIGRATIONS)
                    .loggers("slf4j")
                    .validateMigrationNaming(true)
                    .load()
                    .migrate();
        }
        return connection;
    }

    private static boolean isCurrent(Connection connection) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            try (ResultSet tables =
                    statement.executeQuery("select count(*) from sqlite_master where name = 'flyway_schema_history'")) {
                if (!tables.next() || tables.getInt(1) == 0) {
                    return false;
                }
            }
            try (ResultSet newest = statement.executeQuery("select version from flyway_schema_history"
                    + " where success = 1 order by installed_rank desc limit 1")) {
                return newest.next() && SCHEMA_VERSION.equals(newest.getString(1));
            }
        }
    }
}
