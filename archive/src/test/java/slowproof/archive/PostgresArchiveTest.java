package slowproof.archive;

/** What holds for every archive, on a real PostgreSQL server. */
class PostgresArchiveTest extends ArchiveContract {
    @Override
    ArchivePlace newPlace() {
        return new ArchivePlace.Shared(RealPostgres.get().newDatabase(), folder.resolve("files"));
    }
}
