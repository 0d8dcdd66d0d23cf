package slowproof.app.web;

import slowproof.archive.ArchivePlace;
import slowproof.archive.RealPostgres;

/** Sudden deaths of a server with a PostgreSQL database; every second time the database is killed just before it. */
class SuddenDeathPostgresTest extends SuddenDeathContract {
    private String url = "";

    @Override
    ArchivePlace place() {
        if (url.isEmpty()) {
            url = RealPostgres.get().newDatabase();
        }
        return new ArchivePlace.Shared(url, folder.resolve("files"));
    }

    @Override
    void disturb(int death) {
        if (death % 2 == 0) {
            RealPostgres.get().kill();
        }
    }

    @Override
    void recover(int death) {
        if (death % 2 == 0) {
            RealPostgres.get().startAgain();
        }
    }
}
