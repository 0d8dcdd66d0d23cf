package slowproof.app;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import slowproof.app.web.Reach;
import slowproof.app.web.Server;
import slowproof.app.web.ServerRefusedException;
import slowproof.trial.Trial;
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

    /** Serves the pages of an archive; returns when the program is told to stop. */
    static int run(Path archive, Reach reach, Console console) {
        return run(archive, reach, console, List.of());
    }

    /**
     * Serves the pages of an archive; returns when the program is told to stop.
     *
     * @param trials trials to take into the archive when it is empty
     */
    static int run(Path archive, Reach reach, Console console, List<Trial> trials) {
        Wording wording = console.wording().withPages();
        Server server;
        try {
            server = Server.start(archive, reach);
        } catch (ServerRefusedException e) {
            console.err().println(e.sentence(wording));
            return ExitStatus.WRONG_INPUT;
        }
        server.takeInWhenEmpty(trials);
        Runtime.getRuntime().addShutdownHook(new Thread(server::close));
        console.out().println(wording.text("serve.ready", server.url()));
        if (reach.reachedAs() != null && !reach.isSecure()) {
            console.err().println(wording.text("serve.not_secure", server.url()));
        }
        console.err()
                .println(wording.text("serve.archive", archive.toAbsolutePath().toString()));
        try {
            // until a signal ends the program, and the hook closes the archive
            new CountDownLatch(1).await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        return ExitStatus.DONE;
    }
}
