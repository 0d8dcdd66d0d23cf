package slowproof.app.web;

import slowproof.archive.ArchivePlace;

/** Sudden deaths of a server with the embedded database. */
class SuddenDeathTest extends SuddenDeathContract {
    @Override
    ArchivePlace place() {
        return new ArchivePlace.Folder(folder);
    }

    @Override
    void disturb(int death) {
        // the database lives in the server and dies with it
    }

    @Override
    void recover(int death) {
        // it recovers when it is opened
    }
}
