package slowproof.archive.account;

import slowproof.archive.ArchivePlace;
import slowproof.archive.RealPostgres;

/** The same on a real PostgreSQL server. */
class PostgresAccountsTest extends AccountsTest {
    @Override
    ArchivePlace place() {
        return new ArchivePlace.Shared(RealPostgres.get().newDatabase(), folder.resolve("files"));
    }
}
