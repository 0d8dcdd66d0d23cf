package slowproof.benchmarks;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Takes a long log in with the pages, as a browser does, and looks at windows of it. Prints how long each step takes. */
public final class TakeIn {
    private static final Pattern ID = Pattern.compile("/recordings/[0-9a-f]{32}");
    private static final Pattern ENDS = Pattern.compile("&#34;from&#34;:([0-9.E+-]+),&#34;to&#34;:([0-9.E+-]+)");
    private static final int WINDOWS = 300;
    private static final int PIECES = 1000;
    private static final Duration LONGEST = Duration.ofMinutes(10);

    private final HttpClient client = HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1)
            .followRedirects(HttpClient.Redirect.NORMAL)
            .build();
    private final String home;

    private TakeIn(String home) {
        this.home = home;
    }

    /** Runs against a server: address of its first page without the last stroke, the log, seed of the windows. */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        new TakeIn(arguments[0]).run(Path.of(arguments[1]), Long.parseLong(arguments[2]));
    }

    private void run(Path log, long seed) throws IOException, InterruptedException {
        Matcher id = ID.matcher(get("/recordings/new").body());
        if (!id.find()) {
            throw new IOException("the page names no sending");
        }
        String sending = id.group();
        long start = System.nanoTime();
        send(HttpRequest.newBuilder(URI.create(home + sending + "/files?name=long.csv"))
                .header("Origin", home)
                .header("Content-Type", "application/octet-stream")
                .POST(HttpRequest.BodyPublishers.ofFile(log))
                .build());
        double seconds = since(start);
        double mib = Files.size(log) / 1048576.0;
        say("sent %.0f MiB in %.1f s, %.0f MiB/s%n", mib, seconds, mib / seconds);
        start = System.nanoTime();
        get(sending);
        say("how it is read: %.0f ms%n", 1000 * since(start));
        start = System.nanoTime();
        String page = post(sending + "/cut", "count_mm=0.05");
        while (page.contains("id=\"cutting\"") && since(start) < LONGEST.toSeconds()) {
            Thread.sleep(100);
            page = get(sending + "/passes").body();
        }
        Matcher ends = ENDS.matcher(page);
        if (!ends.find()) {
            throw new IOException("not cut into passes: "
                    + page.replaceAll("(?s).*<div id=\"cut\">|<[^>]*>", " ").strip());
        }
        say("read, cut and made ready for looking at: %.1f s%n", since(start));
        windows(sending, Double.parseDouble(ends.group(1)), Double.parseDouble(ends.group(2)), seed);
        post(sending + "/throw-away", "");
    }

    private void windows(String sending, double from, double to, long seed) throws IOException, InterruptedException {
        SplittableRandom random = new SplittableRandom(seed);
        say("first look at the whole: %.0f ms%n", window(sending, from, to));
        double[] times = new double[WINDOWS];
        for (int i = 0; i < WINDOWS; i++) {
            // from the whole to a millionth, each order of size as often as another
            double span = (to - from) * Math.pow(10, -6 * random.nextDouble());
            double start = from + random.nextDouble() * (to - from - span);
            times[i] = window(sending, start, start + span);
        }
        Arrays.sort(times);
        say(
                "%d windows of any size: least %.1f ms, median %.1f ms, nine of ten within %.1f ms, longest %.1f ms%n",
                WINDOWS, times[0], times[WINDOWS / 2], times[WINDOWS * 9 / 10], times[WINDOWS - 1]);
        double[] whole = new double[21];
        for (int i = 0; i < whole.length; i++) {
            whole[i] = window(sending, from, to);
        }
        Arrays.sort(whole);
        say("the whole again: least %.1f ms, median %.1f ms, longest %.1f ms%n", whole[0], whole[10], whole[20]);
    }

    private double window(String sending, double from, double to) throws IOException, InterruptedException {
        long start = System.nanoTime();
        get(sending + "/trace/0?from=" + from + "&to=" + to + "&pieces=" + PIECES);
        return 1000 * since(start);
    }

    private HttpResponse<String> get(String path) throws IOException, InterruptedException {
        return send(HttpRequest.newBuilder(URI.create(home + path)).GET().build());
    }

    private String post(String path, String body) throws IOException, InterruptedException {
        return send(HttpRequest.newBuilder(URI.create(home + path))
                        .header("Origin", home)
                        .header("Content-Type", "application/x-www-form-urlencoded")
                        .POST(HttpRequest.BodyPublishers.ofString(body))
                        .build())
                .body();
    }

    private HttpResponse<String> send(HttpRequest request) throws IOException, InterruptedException {
        HttpResponse<String> answer = client.send(request, HttpResponse.BodyHandlers.ofString());
        if (answer.statusCode() != 200) {
            throw new IOException(request.uri() + ": " + answer.statusCode() + " " + answer.body());
        }
        return answer;
    }

    private static double since(long start) {
        return (System.nanoTime() - start) / 1e9;
    }

    private static void say(String form, Object... figures) {
        System.out.printf(Locale.ROOT, form, figures);
    }
}
