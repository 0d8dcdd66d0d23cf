package slowproof.archive;

/** What holds for every archive, on the embedded database. */
class SqliteArchiveTest extends ArchiveContract {
    @Override
    ArchivePlace newPlace() {
        return new ArchivePlace.Folder(folder);
    }
}
