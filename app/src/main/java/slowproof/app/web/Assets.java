package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.zip.CRC32;

/**
 * Style, script and letters, from the program itself. Only the names listed here exist. The address carries a
 * checksum of the content, so that a browser may keep each for good and never shows an old one.
 */
final class Assets {
    private static final String OWN = "/slowproof/app/web/assets/";
    private static final String WEBJARS = "/META-INF/resources/webjars/";
    private static final Map<String, Asset> ASSETS = Map.ofEntries(
            Map.entry("pages.css", new Asset(OWN + "pages.css", "text/css; charset=utf-8")),
            Map.entry("label.css", new Asset(OWN + "label.css", "text/css; charset=utf-8")),
            Map.entry("pages.js", new Asset(OWN + "pages.js", "text/javascript; charset=utf-8")),
            Map.entry("chart.js", new Asset(OWN + "chart.js", "text/javascript; charset=utf-8")),
            Map.entry("upload.js", new Asset(OWN + "upload.js", "text/javascript; charset=utf-8")),
            Map.entry("trace.js", new Asset(OWN + "trace.js", "text/javascript; charset=utf-8")),
            Map.entry("icon.svg", new Asset(OWN + "icon.svg", "image/svg+xml")),
            Map.entry("serif.woff2", new Asset(OWN + "source-serif-4.woff2", "font/woff2")),
            Map.entry("serif-italic.woff2", new Asset(OWN + "source-serif-4-italic.woff2", "font/woff2")),
            Map.entry(
                    "htmx.js",
                    new Asset(WEBJARS + "htmx.org/2.0.10/dist/htmx.min.js", "text/javascript; charset=utf-8")),
            Map.entry("sse.js", new Asset(WEBJARS + "htmx-ext-sse/2.2.2/sse.js", "text/javascript; charset=utf-8")),
            Map.entry(
                    "uplot.js",
                    new Asset(WEBJARS + "uplot/1.6.30/dist/uPlot.iife.min.js", "text/javascript; charset=utf-8")),
            Map.entry("uplot.css", new Asset(WEBJARS + "uplot/1.6.30/dist/uPlot.min.css", "text/css; charset=utf-8")));

    private static final Map<String, String> ADDRESSES = new ConcurrentHashMap<>();

    /** Returns the address of an asset. */
    static String address(String name) {
        return ADDRESSES.computeIfAbsent(name, Assets::withChecksum);
    }

    private static String withChecksum(String name) {
        CRC32 checksum = new CRC32();
        checksum.update(read(name));
        return "/assets/" + Long.toString(checksum.getValue(), Character.MAX_RADIX) + "/" + name;
    }

    private static byte[] read(String name) {
        Asset asset = ASSETS.get(name);
        try (InputStream stream = asset == null ? null : Assets.class.getResourceAsStream(asset.resource())) {
            if (stream == null) {
                throw new IllegalStateException("the program is incomplete: " + name + " is missing");
            }
            return stream.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    void install(RoutesConfig routes) {
        routes.get("/assets/{checksum}/{name}", this::serve);
        routes.get("/favicon.ico", context -> context.status(HttpStatus.NO_CONTENT));
    }

    private void serve(Context context) {
        String name = context.pathParam("name");
        Asset asset = ASSETS.get(name);
        if (asset == null || !address(name).equals(context.path())) {
            context.status(HttpStatus.NOT_FOUND).contentType("text/plain").result("Nothing here.\n");
            return;
        }
        byte[] content = read(name);
        if (name.endsWith(".css")) {
            content = withLetterAddresses(content);
        }
        context.contentType(asset.type())
                .header("Cache-Control", "public, max-age=31536000, immutable")
                .result(content);
    }

    private static byte[] withLetterAddresses(byte[] style) {
        String text = new String(style, StandardCharsets.UTF_8);
        return text.replace("url(serif.woff2)", "url(" + address("serif.woff2") + ")")
                .replace("url(serif-italic.woff2)", "url(" + address("serif-italic.woff2") + ")")
                .getBytes(StandardCharsets.UTF_8);
    }

    private record Asset(String resource, String type) {}
}
