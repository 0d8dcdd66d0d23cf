package slowproof.app.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.config.SizeUnit;
import io.javalin.util.JavalinBindException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import slowproof.archive.Archive;
import slowproof.archive.sheet.TrialEvents;
import slowproof.trial.Trial;

/**
 * Serves the pages of one archive on this machine. No class of the pages is loaded before {@link #start}.
 *
 * <p>There are no accounts, so nobody but the person at this machine may reach the pages: only loopback addresses
 * are accepted.
 */
public final class Server implements AutoCloseable {
    /** Port when none is asked for. */
    public static final int DEFAULT_PORT = 7340;

    private static final String LOOPBACK = "127.0.0.1";
    private static final long LARGEST_FORM_BYTES = 1L << 20;

    private final Javalin javalin;
    private final Archive archive;
    private final Live live;

    private Server(Javalin javalin, Archive archive, Live live) {
        this.javalin = javalin;
        this.archive = archive;
        this.live = live;
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
        return start(archiveFolder, LOOPBACK, port);
    }

    /**
     * Opens an archive and serves its pages on an address of this machine.
     *
     * @param archiveFolder folder of the archive; made when it does not exist
     * @param host loopback address or name
     * @param port port, 0 to 65535; 0 for any free one
     * @return the running server
     * @throws ServerRefusedException if the address is not a loopback one, the port is in use or not allowed, or the
     *     archive cannot be opened
     */
    public static Server start(Path archiveFolder, String host, int port) {
        requireLoopback(host);
        if (port < 0 || port > 65_535) {
            throw new ServerRefusedException("refused.port_range", port);
        }
        Clock clock = Clock.systemUTC();
        // the archive is opened while the server classes load: both take about as long
        CompletableFuture<Archive> opening = CompletableFuture.supplyAsync(() -> Archive.open(archiveFolder, clock));
        Live live = new Live();
        Templates templates = new Templates();
        Guard guard = new Guard();
        try {
            Javalin javalin = Javalin.create(config -> {
                settings(config);
                guard.install(config.routes);
                new Assets().install(config.routes);
                new Site(opening::join, templates, live, ZoneId.systemDefault()).install(config.routes);
            });
            Archive archive = opening.join();
            javalin.start(host, port);
            guard.servingOn(javalin.port());
            return new Server(javalin, archive, live);
        } catch (JavalinBindException e) {
            opening.join().close();
            throw new ServerRefusedException("refused.port_in_use", host + ":" + port, port + 1);
        } catch (CompletionException e) {
            if (e.getCause() instanceof UncheckedIOException cause) {
                throw new ServerRefusedException("refused.archive", archiveFolder, String.valueOf(cause.getMessage()));
            }
            throw e;
        }
    }

    private static void requireLoopback(String host) {
        try {
            for (InetAddress address : InetAddress.getAllByName(host)) {
                if (!address.isLoopbackAddress()) {
                    throw new ServerRefusedException("refused.not_loopback", host);
                }
            }
        } catch (UnknownHostException e) {
            throw new ServerRefusedException("refused.not_loopback", host);
        }
    }

    private static void settings(JavalinConfig config) {
        config.startup.showJavalinBanner = false;
        config.startup.showOldJavalinVersionWarning = false;
        config.startup.startupWatcherEnabled = false;
        config.http.maxRequestSize = LARGEST_FORM_BYTES;
        config.http.prefer405over404 = true;
        config.jetty.multipartConfig.maxFileSize(Photos.LARGEST_MB, SizeUnit.MB);
        config.jetty.multipartConfig.maxTotalRequestSize(2L * Photos.LARGEST_MB, SizeUnit.MB);
        config.jetty.modifyHttpConfiguration(http -> http.setSendServerVersion(false));
    }

    /** Takes trials into an archive that holds none yet. */
    public void takeInWhenEmpty(List<Trial> trials) {
        if (archive.trials("", 0, 1).isEmpty()) {
            trials.forEach(trial -> archive.start(TrialEvents.of(trial)));
        }
    }

    /** Returns the address of the first page. */
    public String url() {
        return "http://" + LOOPBACK + ":" + port() + "/";
    }

    /** Returns the port in use. */
    public int port() {
        return javalin.port();
    }

    /** Stops serving and closes the archive. */
    @Override
    public void close() {
        live.close();
        javalin.stop();
        archive.close();
    }
}
