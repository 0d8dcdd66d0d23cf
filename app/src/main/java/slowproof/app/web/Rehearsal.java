package slowproof.app.web;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/**
 * Starts the server on an archive of its own, asks it for its pages and stops it, so that a class archive can be
 * made of what that loads.
 */
public final class Rehearsal {
    private static final String MOVE = "moved=600&speed=50&went_from=0.0&went_to=600.6&back=0.3";

    private Rehearsal() {}

    /** Runs the rehearsal and leaves nothing behind. */
    public static void run() {
        try {
            Path folder = Files.createTempDirectory("slowproof-rehearsal");
            // twice: the first start makes the archive, the second is the ordinary one
            for (int i = 0; i < 2; i++) {
                try (Server server = Server.start(folder, 0)) {
                    pages(server.port());
                }
            }
            delete(folder);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void pages(int port) throws IOException {
        ask(port, "GET / HTTP/1.1", "");
        ask(port, "POST /answer HTTP/1.1", MOVE);
        String kept = ask(port, "POST /keep HTTP/1.1", MOVE);
        int at = kept.indexOf("Location: ");
        if (at >= 0) {
            String bench = kept.substring(at + "Location: ".length(), kept.indexOf("\r\n", at))
                    .replaceFirst("^https?://[^/]*", "");
            ask(port, "GET " + bench + " HTTP/1.1", "");
            ask(port, "GET " + bench.replace("/bench", "") + " HTTP/1.1", "");
        }
        ask(port, "GET /trials HTTP/1.1", "");
    }

    private static String ask(int port, String line, String body) throws IOException {
        String host = "127.0.0.1:" + port;
        String request = line + "\r\nHost: " + host + "\r\nOrigin: http://" + host
                + "\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: " + body.length()
                + "\r\nConnection: close\r\n\r\n" + body;
        try (Socket socket = new Socket(InetAddress.getByAddress(new byte[] {127, 0, 0, 1}), port)) {
            OutputStream out = socket.getOutputStream();
            out.write(request.getBytes(StandardCharsets.US_ASCII));
            out.flush();
            try (InputStream in = socket.getInputStream()) {
                return new String(in.readAllBytes(), StandardCharsets.UTF_8);
            }
        }
    }

    private static void delete(Path folder) throws IOException {
        List<Path> deepestFirst;
        try (Stream<Path> all = Files.walk(folder)) {
            deepestFirst =
                    all.sorted((a, b) -> b.getNameCount() - a.getNameCount()).toList();
        }
        for (Path path : deepestFirst) {
            Files.delete(path);
        }
    }
}
