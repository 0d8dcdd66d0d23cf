package slowproof.app.web;

import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** A browser without script, for tests: follows redirects, keeps cookies, sends the origin of the pages. */
final class Visitor {
    private final String home;
    private final HttpClient client;
    private final HttpClient staying =
            HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();

    Visitor(String home) {
        this.home = home.substring(0, home.length() - 1);
        this.client = HttpClient.newBuilder()
                .version(HttpClient.Version.HTTP_1_1)
                .cookieHandler(new CookieManager())
                .followRedirects(HttpClient.Redirect.NORMAL)
                .build();
    }

    HttpResponse<String> get(String path) {
        return send(request(path).GET().build());
    }

    HttpResponse<byte[]> bytes(String path) {
        try {
            return client.send(request(path).GET().build(), HttpResponse.BodyHandlers.ofByteArray());
        } catch (IOException e) {
            throw new IllegalStateException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    /** Sends a form and goes where its answer leads; names and texts come in pairs. */
    HttpResponse<String> post(String path, String... fields) {
        return send(form(path, fields));
    }

    /** Sends a form and stays with its answer. */
    HttpResponse<String> postOnly(String path, String... fields) {
        return send(staying, form(path, fields));
    }

    private HttpRequest form(String path, String... fields) {
        StringBuilder body = new StringBuilder();
        for (int i = 0; i < fields.length; i += 2) {
            body.append(i == 0 ? "" : "&")
                    .append(fields[i])
                    .append('=')
                    .append(URLEncoder.encode(fields[i + 1], StandardCharsets.UTF_8));
        }
        return request(path)
                .header("Origin", home)
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(body.toString()))
                .build();
    }

    /** Sends one file as a form does and stays with its answer. */
    HttpResponse<String> uploadOnly(String path, String field, String name, String token, byte[] content) {
        String part = "--frontier\r\nContent-Disposition: form-data; name=\"";
        byte[] head = (part + "token\"\r\n\r\n" + token + "\r\n" + part + field + "\"; filename=\"" + name
                        + "\"\r\nContent-Type: application/octet-stream\r\n\r\n")
                .getBytes(StandardCharsets.UTF_8);
        byte[] foot = "\r\n--frontier--\r\n".getBytes(StandardCharsets.UTF_8);
        return sendOnly(request(path)
                .header("Origin", home)
                .header("Content-Type", "multipart/form-data; boundary=frontier")
                .POST(HttpRequest.BodyPublishers.ofByteArrays(List.of(head, content, foot)))
                .build());
    }

    HttpRequest.Builder request(String path) {
        return HttpRequest.newBuilder(URI.create(home + path)).header("Accept-Language", "en");
    }

    /** Sends a request and stays with its answer. */
    HttpResponse<String> sendOnly(HttpRequest request) {
        return send(staying, request);
    }

    HttpResponse<String> send(HttpRequest request) {
        return send(client, request);
    }

    private static HttpResponse<String> send(HttpClient with, HttpRequest request) {
        try {
            return with.send(request, HttpResponse.BodyHandlers.ofString());
        } catch (IOException e) {
            throw new IllegalStateException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    /** Starts an empty trial and returns its path. */
    String newTrial() {
        String path = post("/trials").uri().getPath();
        return path.substring(0, path.length() - "/bench".length());
    }
}
