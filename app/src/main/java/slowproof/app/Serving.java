package slowproof.app;

import java.nio.file.Path;
import java.util.concurrent.CountDownLatch;
import java.util.function.Consumer;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;
import slowproof.app.web.Reach;
import slowproof.app.web.Server;
import slowproof.app.web.ServerRefusedException;
import slowproof.archive.Archive;
import slowproof.archive.ArchivePlace;
import slowproof.wording.Wording;

/** Serves the pages until the program is told to stop. A class of its own, so that other commands load nothing of it. */
final class Serving {
    private Serving() {}

    /** Returns the folder of the archive when none is asked for: in the person's data folder, else here. */
    static Path usualArchive() {
        String data = System.getenv("XDG_DATA_HOME");
        String home = System.getenv("HOME");
        if (data != null && !data.isBlank()) {
            return Path.of(data, "slowproof");
        }
        return home == null || home.isBlank() ? Path.of("slowproof-archive") : Path.of(home, ".local/share/slowproof");
    }

    /** Adds the options that say which archive is meant. */
    static CommandSpec addPlace(CommandSpec spec) {
        spec.addOption(Words.text(
                "--archive",
                "DIR|URL",
                "Folder of the archive (default: in your data folder), or a PostgreSQL database,",
                "such as jdbc:postgresql://server/slowproof."));
        return spec.addOption(Words.path(
                "--files", "DIR", "Folder of the raw files beside a database (default: in your data folder)."));
    }

    /** Returns the archive that the words ask for. */
    static ArchivePlace place(ParseResult words) {
        String archive = Words.textOf(words, "--archive");
        Path files = Words.pathOf(words, "--files");
        if (archive != null && archive.startsWith(ArchivePlace.SERVER_PREFIX)) {
            return new ArchivePlace.Shared(
                    archive, files == null ? usualArchive().resolve("files") : files);
        }
        return new ArchivePlace.Folder(archive == null ? usualArchive() : Path.of(archive));
    }

    /** Serves the pages of an archive; returns when the program is told to stop. */
    static int run(ArchivePlace archive, Reach reach, Console console) {
        return run(archive, reach, console, empty -> {});
    }

    /**
     * Serves the pages of an archive; returns when the program is told to stop.
     *
     * @param fill what fills the archive when it holds no trial
     */
    static int run(ArchivePlace archive, Reach reach, Console console, Consumer<Archive> fill) {
        Wording wording = console.wording().withPages();
        Server server;
        try {
            server = Server.start(archive, reach);
        } catch (ServerRefusedException e) {
            console.err().println(e.sentence(wording));
            return ExitStatus.WRONG_INPUT;
        }
        server.whenEmpty(fill);
        Runtime.getRuntime().addShutdownHook(new Thread(server::close));
        console.out().println(wording.text("serve.ready", server.url()));
        if (reach.reachedAs() != null && !reach.isSecure()) {
            console.err().println(wording.text("serve.not_secure", server.url()));
        }
        console.err().println(wording.text("serve.archive", archive.shown()));
        try {
            // until a signal ends the program, and the hook closes the archive
            new CountDownLatch(1).await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        return ExitStatus.DONE;
    }
}
