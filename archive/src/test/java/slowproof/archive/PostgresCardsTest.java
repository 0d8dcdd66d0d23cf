package slowproof.archive;

/** The same on a real PostgreSQL server. */
class PostgresCardsTest extends CardsTest {
    @Override
    ArchivePlace place() {
        return new ArchivePlace.Shared(RealPostgres.get().newDatabase(), folder.resolve("files"));
    }
}
