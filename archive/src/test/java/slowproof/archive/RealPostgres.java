package slowproof.archive;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.tukaani.xz.XZInputStream;

/**
 * A real PostgreSQL server on a free port of loopback, unpacked into a temporary folder and started once for all
 * tests of a process; it ends with the process. PostgreSQL refuses to run as root, so there it runs as nobody.
 */
public final class RealPostgres {
    private static final String PROGRAMS = "/postgres-linux-x86_64.txz";
    private static final int PATIENCE_S = 60;
    private static final AtomicInteger DATABASES = new AtomicInteger();

    private static RealPostgres running;

    private final Path home;
    private final int port;
    private final boolean root = "root".equals(System.getProperty("user.name"));
    private Process server;

    private RealPostgres(Path home, int port) {
        this.home = home;
        this.port = port;
    }

    /** Returns the server, started when it is not running yet. */
    public static synchronized RealPostgres get() {
        if (running == null) {
            try {
                RealPostgres made = new RealPostgres(Files.createTempDirectory("slowproof-postgres"), freePort());
                Runtime.getRuntime().addShutdownHook(new Thread(made::remove));
                made.install();
                made.start();
                running = made;
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        return running;
    }

    /** Makes an empty database and returns its JDBC address. */
    public String newDatabase() {
        String name = "archive" + DATABASES.incrementAndGet();
        try (Connection connection = DriverManager.getConnection(url("postgres"));
                Statement statement = connection.createStatement()) {
            statement.execute("create database " + name);
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        }
        return url(name);
    }

    private String url(String database) {
        return "jdbc:postgresql://127.0.0.1:" + port + "/" + database + "?user=postgres";
    }

    /** Kills the server and all its processes without a chance to tidy up. */
    public synchronized void kill() {
        // the head first: it would answer the death of a part by tidying up
        List<ProcessHandle> parts = server.descendants().toList();
        end();
        parts.forEach(ProcessHandle::destroyForcibly);
    }

    /** Starts the server again after it was killed, on the same data. */
    public synchronized void startAgain() {
        start();
    }

    private void install() throws IOException {
        Files.setPosixFilePermissions(home, PosixFilePermissions.fromString("rwxr-xr-x"));
        try (InputStream packed = RealPostgres.class.getResourceAsStream(PROGRAMS);
                TarArchiveInputStream files =
                        new TarArchiveInputStream(new XZInputStream(new BufferedInputStream(packed)))) {
            for (TarArchiveEntry entry = files.getNextEntry(); entry != null; entry = files.getNextEntry()) {
                unpack(entry, files);
            }
        }
        Path data = home.resolve("data");
        Files.createDirectory(data);
        if (root) {
            run("chown", "nobody", data.toString());
        }
        run(asServer(
                "initdb", "-D", data.toString(), "-U", "postgres", "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8"));
    }

    private void unpack(TarArchiveEntry entry, InputStream content) throws IOException {
        Path target = home.resolve(entry.getName()).normalize();
        if (!target.startsWith(home)) {
            throw new IOException(entry.getName());
        }
        if (entry.isDirectory()) {
            Files.createDirectories(target);
            return;
        }
        Files.createDirectories(target.getParent());
        if (entry.isSymbolicLink()) {
            Files.createSymbolicLink(target, Path.of(entry.getLinkName()));
            return;
        }
        Files.copy(content, target);
        if ((entry.getMode() & 0100) != 0) {
            Files.setPosixFilePermissions(target, PosixFilePermissions.fromString("rwxr-xr-x"));
        }
    }

    private void start() {
        try {
            server = new ProcessBuilder(asServer(
                            "postgres",
                            "-D",
                            home.resolve("data").toString(),
                            "-p",
                            String.valueOf(port),
                            "-c",
                            "listen_addresses=127.0.0.1",
                            "-c",
                            "unix_socket_directories="))
                    .redirectErrorStream(true)
                    .redirectOutput(home.resolve("server.log").toFile())
                    .start();
            awaitStart();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void awaitStart() throws IOException {
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_S);
        while (true) {
            try (Connection connection = DriverManager.getConnection(url("postgres"))) {
                if (connection.isValid(PATIENCE_S)) {
                    return;
                }
            } catch (SQLException e) {
                if (System.nanoTime() > end || !server.isAlive()) {
                    throw new IOException(Files.readString(home.resolve("server.log")), e);
                }
            }
            pause();
        }
    }

    private static void pause() {
        try {
            Thread.sleep(50);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private List<String> asServer(String program, String... words) {
        List<String> command = new ArrayList<>();
        if (root) {
            command.addAll(List.of("setpriv", "--reuid=nobody", "--regid=nogroup", "--clear-groups"));
        }
        command.add(home.resolve("bin").resolve(program).toString());
        command.addAll(List.of(words));
        return command;
    }

    private void run(String... command) throws IOException {
        run(List.of(command));
    }

    private void run(List<String> command) throws IOException {
        Path log = home.resolve("install.log");
        Process process = new ProcessBuilder(command)
                .directory(home.toFile())
                .redirectErrorStream(true)
                .redirectOutput(log.toFile())
                .start();
        try {
            if (process.waitFor() != 0) {
                throw new IOException(command + ": " + Files.readString(log));
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException(e);
        }
    }

    private void end() {
        server.destroyForcibly();
        try {
            server.waitFor(PATIENCE_S, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void remove() {
        if (server != null) {
            kill();
        }
        try (Stream<Path> all = Files.walk(home)) {
            all.sorted(Comparator.reverseOrder()).forEach(path -> path.toFile().delete());
        } catch (IOException | UncheckedIOException e) {
            System.err.println(home + " stays behind: " + e.getMessage());
        }
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }
}
