package slowproof.archive;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;

/**
 * Brings the tables of a database up to date: the files common to all databases and those of its own kind, each
 * number used once among both.
 */
final class Migrations {
    /** How many files there are for one kind of database. */
    static final int COUNT = 7;

    static final String COMMON = "slowproof/archive/migration";
    static final String SQLITE = "slowproof/archive/migration_sqlite";
    static final String POSTGRESQL = "slowproof/archive/migration_postgresql";

    private Migrations() {}

    /** Makes the tables current. Flyway is loaded only when there is something to do: it would double an ordinary start. */
    static void apply(DataSource database, String own) throws SQLException {
        int applied = applied(database);
        if (applied < COUNT) {
            Flyway.configure()
                    .dataSource(database)
                    .locations("classpath:" + COMMON, "classpath:" + own)
                    .loggers("slf4j")
                    .validateMigrationNaming(true)
                    .outOfOrder(true)
                    .load()
                    .migrate();
        } else if (applied > COUNT) {
            throw new SQLException("it was made by a newer version of this program, which has " + applied
                    + " steps in its tables; this one knows " + COUNT + ". Start the newer version");
        }
    }

    private static int applied(DataSource database) throws SQLException {
        try (Connection connection = database.getConnection()) {
            try (ResultSet tables = connection
                    .getMetaData()
                    .getTables(null, connection.getSchema(), "flyway_schema_history", new String[] {"TABLE"})) {
                if (!tables.next()) {
                    return 0;
                }
            }
            try (Statement statement = connection.createStatement();
                    ResultSet count = statement.executeQuery(
                            "select count(*) from flyway_schema_history where success and version is not null")) {
                return count.next() ? count.getInt(1) : 0;
            }
        }
    }
}
