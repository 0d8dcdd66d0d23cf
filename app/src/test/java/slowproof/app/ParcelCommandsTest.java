package slowproof.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.Archive;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.typed.Typed;

/** Whole trials go from archive to archive by command. */
class ParcelCommandsTest {
    @TempDir
    Path folder;

    private String out = "";
    private String err = "";

    private int run(String... words) {
        CommandRun run = CommandRun.of(words);
        out = run.out();
        err = run.err();
        return run.status();
    }

    private Archive open(String name) {
        return Archive.open(folder.resolve(name), Clock.systemUTC());
    }

    private String trial(String title) {
        try (Archive archive = open("from")) {
            Typed typed = new Typed(title, Typed.NOTHING.mark(), Typed.NOTHING.lengthUnit(), Typed.NOTHING.speedUnit());
            return archive.start("ines", List.of(Sheet.noting(FactName.TITLE, typed)));
        }
    }

    private String path(String name) {
        return folder.resolve(name).toString();
    }

    @Test
    void exportedTrialIsImportedWithTheSameEvents() {
        String id = trial("Felt at the cutter");
        trial("Clear film");
        assertThat(run("export", "felt", "CUTTER", "-o", path("felt.zip"), "--archive", path("from")))
                .isZero();
        assertThat(run("import", path("felt.zip"), "--archive", path("to"))).isZero();
        assertThat(out).contains(id).contains("was taken in, 2 entries");
        try (Archive from = open("from");
                Archive to = open("to")) {
            assertThat(to.recorded(id)).isEqualTo(from.recorded(id));
        }
        assertThat(run("import", path("felt.zip"), "--archive", path("to"))).isZero();
        assertThat(out).contains("is here already");
        assertThat(run("export", id, "-o", path("again.zip"), "--archive", path("to")))
                .isZero();
        assertThat(folder.resolve("again.zip")).hasSameBinaryContentAs(folder.resolve("felt.zip"));
    }

    @Test
    void severalTrialsThatFitAreNamed() {
        String one = trial("Felt, first");
        String two = trial("Felt, second");
        assertThat(run("export", "felt", "--archive", path("from"))).isEqualTo(ExitStatus.WRONG_INPUT);
        assertThat(err).contains(one + "  Felt, first").contains(two + "  Felt, second");
        assertThat(run("export", "glass", "--archive", path("from"))).isEqualTo(ExitStatus.WRONG_INPUT);
        assertThat(err).contains("\"glass\"");
    }

    @Test
    void brokenFileIsRefusedAndTheNextOneIsTakenIn() throws Exception {
        trial("Felt");
        run("export", "felt", "-o", path("felt.zip"), "--archive", path("from"));
        Files.writeString(folder.resolve("broken.zip"), "PK but no more");
        assertThat(run("import", path("broken.zip"), path("none.zip"), path("felt.zip"), "--archive", path("to")))
                .isEqualTo(ExitStatus.WRONG_INPUT);
        assertThat(err).contains("broken.zip: This is no whole ZIP file").contains("none.zip");
        assertThat(out).contains("was taken in");
    }
}
