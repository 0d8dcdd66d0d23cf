package slowproof.benchmarks;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;

/**
 * Loads the log of {@link LongLog} into a table of DuckDB in memory, types given, on two threads, as a yardstick of what
 * reading such a file takes. Prints the milliseconds of the load alone, without start and connection.
 *
 * <p>Words: the log, and how often to load it (default: once).
 */
public final class DuckDbLoad {
    private DuckDbLoad() {}

    /** Loads and counts. */
    public static void main(String[] words) throws SQLException {
        String file = words[0].replace("'", "''");
        int turns = words.length > 1 ? Integer.parseInt(words[1]) : 1;
        try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
                Statement statement = connection.createStatement()) {
            statement.execute("SET threads = 2");
            for (int turn = 0; turn < turns; turn++) {
                long began = System.nanoTime();
                statement.execute("CREATE OR REPLACE TABLE log AS SELECT * FROM read_csv('" + file
                        + "', header = true, delim = ',', quote = '', auto_detect = false, columns = {'time_s': 'DOUBLE',"
                        + " 'count': 'BIGINT', 'reference_mm': 'DOUBLE', 'dropout_pct': 'DOUBLE'})");
                long ended = System.nanoTime();
                try (ResultSet rows = statement.executeQuery("SELECT count(*) FROM log")) {
                    rows.next();
                    System.out.println((ended - began) / 1_000_000 + " ms for " + rows.getLong(1) + " rows");
                }
            }
        }
    }
}
