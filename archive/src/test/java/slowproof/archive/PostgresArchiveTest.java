package slowproof.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Clock;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What holds for every archive, on a real PostgreSQL server, and what holds there alone. */
class PostgresArchiveTest extends ArchiveContract {
    @Override
    ArchivePlace newPlace() {
        return new ArchivePlace.Shared(RealPostgres.get().newDatabase(), folder.resolve("files"));
    }

    private static Archive open(ArchivePlace place) {
        return Archive.open(place, Clock.systemUTC());
    }

    @Test
    void folderWithoutTheFilesOfTheDatabaseIsRefused() {
        ArchivePlace.Shared place = (ArchivePlace.Shared) newPlace();
        try (Archive archive = open(place)) {
            NewEvent photo = NewEvent.of(
                    EventKind.PHOTO,
                    "sha256",
                    archive.keepFile(new byte[] {1}),
                    "name",
                    "a.png",
                    "type",
                    "image/png",
                    "bytes",
                    "1");
            archive.start(List.of(photo));
        }
        assertThatThrownBy(() -> open(new ArchivePlace.Shared(place.url(), folder.resolve("other"))))
                .hasMessageContaining("do not lie in")
                .hasMessageContaining("--files");
        open(place).close();
    }

    @Test
    void truncatingIsRefusedToo() throws Exception {
        ArchivePlace place = newPlace();
        open(place).close();
        try (Database database = Databases.open(place)) {
            for (String table : List.of("event", "result", "kept_file, result", "card_event")) {
                assertThatThrownBy(() -> database.write(handle -> handle.execute("truncate " + table)))
                        .hasMessageContaining("what was recorded is never");
            }
        }
    }

    @Test
    void archiveGoesOnWhenTheServerWasRestarted() {
        ArchivePlace place = newPlace();
        try (Archive archive = open(place)) {
            String id = archive.start(List.of());
            RealPostgres.get().kill();
            assertThatThrownBy(() -> archive.append(id, "a", List.of())).isInstanceOf(RuntimeException.class);
            RealPostgres.get().startAgain();
            NewEvent comment = NewEvent.of(EventKind.FACT, "name", "notes", "text", "after it");
            archive.append(id, "a", List.of(comment));
            assertThat(archive.events(id)).hasSize(2);
        }
    }

    @Test
    void secretsOfTheAddressAreNeverShown() {
        String url = "jdbc:postgresql://127.0.0.1:1/slowproof?user=bench&password=hush-hush";
        ArchivePlace.Shared place = new ArchivePlace.Shared(url, folder.resolve("files"));
        assertThat(place.shown()).isEqualTo("jdbc:postgresql://127.0.0.1:1/slowproof");
        assertThat(place.toString()).doesNotContain("hush-hush");
        assertThatThrownBy(() -> open(place)).satisfies(e -> {
            for (Throwable cause = e; cause != null; cause = cause.getCause()) {
                assertThat(String.valueOf(cause.getMessage())).doesNotContain("hush-hush");
            }
        });
        assertThatThrownBy(() -> open(
                        new ArchivePlace.Shared("jdbc:postgresql:/bench:hush-hush@nowhere", folder.resolve("files"))))
                .satisfies(e -> assertThat(String.valueOf(e.getMessage())).doesNotContain("hush-hush"));
    }
}
