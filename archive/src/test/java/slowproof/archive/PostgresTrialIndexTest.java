package slowproof.archive;

/** The same on a real PostgreSQL server. */
class PostgresTrialIndexTest extends TrialIndexTest {
    @Override
    ArchivePlace place() {
        return new ArchivePlace.Shared(RealPostgres.get().newDatabase(), folder.resolve("files"));
    }
}
