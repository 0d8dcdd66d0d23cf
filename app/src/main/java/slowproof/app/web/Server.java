package slowproof.app.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.config.SizeUnit;
import io.javalin.util.JavalinBindException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.Consumer;
import slowproof.app.ResultCache;
import slowproof.archive.Archive;
import slowproof.archive.ArchivePlace;
import slowproof.files.cache.CacheFolder;

/**
 * Serves the pages of one archive on this machine. No class of the pages is loaded before {@link #start}.
 *
 * <p>On a loopback address nobody logs in: only the person at this machine can come. Any other address needs accounts.
 */
public final class Server implements AutoCloseable {
    /** Port when none is asked for. */
    public static final int DEFAULT_PORT = 7340;

    private static final long LARGEST_FORM_BYTES = 1L << 20;

    private final Javalin javalin;
    private final Archive archive;
    private final Summaries summaries;
    private final SaidAnswers said;
    private final Live live;
    private final UploadJobs jobs;
    private final Reach reach;

    private Server(
            Javalin javalin,
            Archive archive,
            Summaries summaries,
            SaidAnswers said,
            Live live,
            UploadJobs jobs,
            Reach reach) {
        this.javalin = javalin;
        this.archive = archive;
        this.summaries = summaries;
        this.said = said;
        this.live = live;
        this.jobs = jobs;
        this.reach = reach;
    }

    /**
     * Opens an archive and serves its pages on 127.0.0.1.
     *
     * @param archiveFolder folder of the archive; made when it does not exist
     * @param port port, 0 to 65535; 0 for any free one
     * @return the running server
     * @throws ServerRefusedException if the port is in use or not allowed, or the archive cannot be opened
     */
    public static Server start(Path archiveFolder, int port) {
        return start(archiveFolder, Reach.here(port));
    }

    /**
     * Opens an archive and serves its pages on an address of this machine. Where others than the person at this
     * machine can come, everybody logs in.
     *
     * @param archiveFolder folder of the archive; made when it does not exist
     * @param reach where the pages can be reached
     * @return the running server
     * @throws ServerRefusedException if the address is not allowed, accounts are needed and there are none, the port is in
     *     use, or the archive cannot be opened
     */
    public static Server start(Path archiveFolder, Reach reach) {
        return start(new ArchivePlace.Folder(archiveFolder), reach);
    }

    /**
     * Opens an archive and serves its pages as {@link #start(Path, Reach)} does.
     *
     * @param place where the archive is; made when it does not exist
     * @param reach where the pages can be reached
     * @return the running server
     * @throws ServerRefusedException if the address is not allowed, accounts are needed and there are none, the port is in
     *     use, or the archive cannot be opened
     */
    public static Server start(ArchivePlace place, Reach reach) {
        return start(place, reach, Clock.systemUTC());
    }

    static Server start(Path archiveFolder, Reach reach, Clock clock) {
        return start(new ArchivePlace.Folder(archiveFolder), reach, clock);
    }

    private static Server start(ArchivePlace place, Reach reach, Clock clock) {
        reach.check();
        // the archive is opened while the server classes load: both take about as long
        CompletableFuture<Archive> opening = CompletableFuture.supplyAsync(() -> Archive.open(place, clock));
        Live live = new Live();
        ZoneId zone = ZoneId.systemDefault();
        CacheFolder cache = ResultCache.ofUser();
        KeptRecordings kept = new KeptRecordings(cache);
        UploadJobs jobs = new UploadJobs(cache);
        Summaries summaries = new Summaries(opening::join, kept, zone);
        SaidAnswers said = new SaidAnswers(opening::join);
        Templates templates = new Templates();
        Guard guard = new Guard(reach);
        try {
            Javalin javalin = Javalin.create(config -> {
                settings(config);
                guard.install(config.routes);
                new Assets().install(config.routes);
                new Site(opening::join, summaries, said, templates, live, zone, kept, jobs)
                        .install(config.routes, reach.isOpen() ? door(reach, opening, clock) : null);
            });
            Archive archive = opening.join();
            if (reach.isOpen() && archive.accounts().all().isEmpty()) {
                archive.close();
                throw new ServerRefusedException("refused.no_accounts", place.shown());
            }
            javalin.start(reach.host(), reach.port());
            guard.servingOn(javalin.port());
            return new Server(javalin, archive, summaries, said, live, jobs, reach);
        } catch (JavalinBindException e) {
            opening.join().close();
            throw new ServerRefusedException(
                    "refused.port_in_use", reach.host() + ":" + reach.port(), reach.port() + 1);
        } catch (CompletionException e) {
            if (e.getCause() instanceof UncheckedIOException cause) {
                throw new ServerRefusedException(
                        place instanceof ArchivePlace.Shared ? "refused.database" : "refused.archive",
                        place.shown(),
                        String.valueOf(cause.getMessage()));
            }
            throw e;
        }
    }

    private static Door door(Reach reach, CompletableFuture<Archive> opening, Clock clock) {
        return new Door(reach.isSecure(), () -> opening.join().accounts(), clock);
    }

    private static void settings(JavalinConfig config) {
        config.startup.showJavalinBanner = false;
        config.startup.showOldJavalinVersionWarning = false;
        config.startup.startupWatcherEnabled = false;
        config.http.maxRequestSize = LARGEST_FORM_BYTES;
        config.http.prefer405over404 = true;
        // kept on the disk, not in the memory, until a page has looked at it
        config.jetty.multipartConfig.maxInMemoryFileSize(1, SizeUnit.MB);
        config.jetty.multipartConfig.maxFileSize(TakeInPage.LARGEST_MB, SizeUnit.MB);
        config.jetty.multipartConfig.maxTotalRequestSize(TakeInPage.LARGEST_MB + 1L, SizeUnit.MB);
        config.jetty.modifyHttpConfiguration(http -> http.setSendServerVersion(false));
    }

    /**
     * Fills an archive that holds no trial yet. What its lists show is worked out in the background.
     *
     * @param fill what fills it
     */
    public void whenEmpty(Consumer<Archive> fill) {
        if (archive.trials("", 0, 1).isEmpty()) {
            fill.accept(archive);
            summaries.upToDate();
        }
    }

    /** Returns the address of the first page. */
    public String url() {
        return reach.reachedAs() == null
                ? "http://" + Reach.LOOPBACK + ":" + port() + "/"
                : reach.scheme() + reach.reachedAs().getRawAuthority() + "/";
    }

    /** Returns the port in use. */
    public int port() {
        return javalin.port();
    }

    /** Stops serving and closes the archive. */
    @Override
    public void close() {
        live.close();
        jobs.close();
        javalin.stop();
        summaries.close();
        said.close();
        archive.close();
    }
}
