package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import io.javalin.http.HttpStatus;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Stands before every page. Also where the server listens on loopback, any page open in the person's browser can send
 * requests there: a foreign name that resolves to this machine is caught by the Host header, a foreign page that
 * posts here by the Origin header. The content security policy allows no inline script or style and nothing from
 * elsewhere, so that typed text which slips through the escaping stays text.
 */
final class Guard {
    private static final String POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self';"
            + " img-src 'self' data:; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    private final Reach reach;
    private volatile Set<String> hosts = Set.of();

    Guard(Reach reach) {
        this.reach = reach;
    }

    /** Tells the port, so that the names under which the pages are reached are known. Before that all are refused. */
    void servingOn(int port) {
        hosts = reach.hosts(port);
    }

    void install(RoutesConfig routes) {
        routes.before(this::check);
    }

    private void check(Context context) {
        headers(context);
        String host = context.header("Host");
        if (host == null || !hosts.contains(host.toLowerCase(Locale.ROOT))) {
            refuse(context, HttpStatus.MISDIRECTED_REQUEST, reach.isOpen() ? "refused.host_name" : "refused.host");
            return;
        }
        if (!HandlerType.GET.equals(context.method())
                && !HandlerType.HEAD.equals(context.method())
                && !fromHere(context.header("Origin"), host)) {
            refuse(context, HttpStatus.FORBIDDEN, "refused.origin");
        }
    }

    private boolean fromHere(@Nullable String origin, String host) {
        return origin != null && origin.equalsIgnoreCase(reach.scheme() + host);
    }

    private static void headers(Context context) {
        context.header("Content-Security-Policy", POLICY);
        context.header("X-Content-Type-Options", "nosniff");
        // not "no-referrer": browsers would then hide the origin of forms, which is checked here
        context.header("Referrer-Policy", "same-origin");
        context.header("Cross-Origin-Opener-Policy", "same-origin");
        context.header("Cross-Origin-Resource-Policy", "same-origin");
        context.header("Permissions-Policy", "camera=(), microphone=(), geolocation=()");
        context.header("Cache-Control", "no-store");
    }

    private static void refuse(Context context, HttpStatus status, String key) {
        context.status(status)
                .contentType("text/plain; charset=utf-8")
                .result(Visit.wording(context).text(key) + "\n");
        context.skipRemainingHandlers();
    }
}
