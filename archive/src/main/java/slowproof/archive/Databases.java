package slowproof.archive;

import java.sql.SQLException;

/** Opens databases. */
final class Databases {
    private Databases() {}

    /** Opens the database of a place and brings its tables up to date. */
    static Database open(ArchivePlace place) throws SQLException {
        // the driver of a place that is not asked for is never loaded
        return place instanceof ArchivePlace.Shared shared
                ? PostgresDatabase.open(shared.url())
                : SqliteDatabase.open(((ArchivePlace.Folder) place).folder().resolve("slowproof.db"));
    }
}
