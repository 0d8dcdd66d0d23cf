package slowproof.archive;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import com.zaxxer.hikari.pool.HikariPool.PoolInitializationException;
import java.sql.SQLException;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.Jdbi;

/**
 * A PostgreSQL database. Commits wait for the disk of the server, whatever its configuration says. Connections that
 * break, for instance because the server was restarted, are replaced.
 */
final class PostgresDatabase implements Database {
    private static final int CONNECTIONS = 8;
    private static final long PATIENCE_MS = 10_000;

    private final HikariDataSource source;
    private final Jdbi jdbi;

    private PostgresDatabase(HikariDataSource source) {
        this.source = source;
        this.jdbi = Jdbi.create(source);
    }

    static PostgresDatabase open(String url) throws SQLException {
        HikariConfig config = new HikariConfig();
        config.setJdbcUrl(url);
        config.setPoolName("archive");
        config.setMaximumPoolSize(CONNECTIONS);
        config.setMinimumIdle(1);
        config.setConnectionTimeout(PATIENCE_MS);
        config.setConnectionInitSql("set synchronous_commit to on");
        // user and password may also stand in ~/.pgpass, which the driver reads
        env("SLOWPROOF_DATABASE_USER", config::setUsername);
        env("SLOWPROOF_DATABASE_PASSWORD", config::setPassword);
        HikariDataSource source;
        try {
            source = new HikariDataSource(config);
        } catch (PoolInitializationException e) {
            throw new SQLException(rootMessage(e), e);
        } catch (RuntimeException e) {
            // without its cause: that repeats the address, passwords included
            throw new SQLException("not understood; write it as jdbc:postgresql://host:port/name");
        }
        try {
            Migrations.apply(source, Migrations.POSTGRESQL);
        } catch (SQLException | RuntimeException e) {
            source.close();
            throw e;
        }
        return new PostgresDatabase(source);
    }

    private static void env(String name, java.util.function.Consumer<String> use) {
        String text = System.getenv(name);
        if (text != null && !text.isEmpty()) {
            use.accept(text);
        }
    }

    private static String rootMessage(Throwable e) {
        Throwable cause = e;
        while (cause.getCause() != null) {
            cause = cause.getCause();
        }
        return String.valueOf(cause.getMessage());
    }

    @Override
    public <T> T read(HandleCallback<T, RuntimeException> work) {
        return jdbi.withHandle(work);
    }

    @Override
    public <T> T write(HandleCallback<T, RuntimeException> work) {
        return jdbi.inTransaction(work);
    }

    @Override
    public void close() {
        source.close();
    }
}
