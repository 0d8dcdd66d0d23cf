package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import io.javalin.http.HttpStatus;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import slowproof.archive.account.Account;
import slowproof.archive.account.Accounts;

/**
 * Lets in who has an account, when the pages can be reached from elsewhere. Every page needs a session, every form the
 * secret of that session, and what records needs the role for it.
 */
final class Door {
    /** Header in which scripts send the secret of the session. */
    static final String TOKEN_HEADER = "X-Form-Token";

    /** Field in which forms send the secret of the session. */
    static final String TOKEN_FIELD = "form_token";

    private static final Logger LOG = LoggerFactory.getLogger(Door.class);
    private static final Set<String> READERS_POST = Set.of("/answer", "/clear", "/log-out", "/account");

    private final boolean secure;
    private final Supplier<Accounts> accounts;
    private final Sessions sessions;
    private final Attempts attempts;

    Door(boolean secure, Supplier<Accounts> accounts, Clock clock) {
        this.secure = secure;
        this.accounts = accounts;
        this.sessions = new Sessions(clock);
        this.attempts = new Attempts(clock);
    }

    void install(RoutesConfig routes, Site site) {
        routes.before(context -> check(context, site));
        routes.get("/log-in", context -> show(context, site, "", List.of()));
        routes.post("/log-in", context -> logIn(context, site));
        routes.post("/log-out", this::logOut);
    }

    private void check(Context context, Site site) {
        if (secure) {
            context.header("Strict-Transport-Security", "max-age=31536000");
        }
        String path = context.path();
        if (path.startsWith("/assets/") || path.equals("/favicon.ico")) {
            return;
        }
        Optional<Reader> reader = reader(context);
        reader.orElse(Reader.OUTSIDE).reads(context);
        boolean reading = HandlerType.GET.equals(context.method()) || HandlerType.HEAD.equals(context.method());
        if (reader.isEmpty() && !reading && context.isMultipart()) {
            // to look into it would take in a whole upload of somebody who may not send one
            context.status(HttpStatus.UNAUTHORIZED)
                    .contentType("text/plain; charset=utf-8")
                    .result(Visit.wording(context).text("log_in.title") + "\n");
            context.skipRemainingHandlers();
            return;
        }
        if (path.equals("/log-in")) {
            return;
        }
        if (reader.isEmpty()) {
            if (reading) {
                context.redirect("/log-in?to=" + URLEncoder.encode(path, StandardCharsets.UTF_8), HttpStatus.SEE_OTHER);
            } else {
                context.status(HttpStatus.UNAUTHORIZED);
                show(context, site, "", List.of());
            }
            context.skipRemainingHandlers();
        } else if (!reading && !carriesToken(context, reader.get())) {
            refuse(context, site, "expired");
        } else if (!reading && !reader.get().mayRecord() && !READERS_POST.contains(path)) {
            refuse(context, site, "reading_only");
        } else if (path.startsWith("/accounts") && !reader.get().mayChangeAccounts()) {
            refuse(context, site, "reading_only");
        }
    }

    private static void refuse(Context context, Site site, String kind) {
        context.status(HttpStatus.FORBIDDEN);
        site.sorry(context, kind);
        context.skipRemainingHandlers();
    }

    private Optional<Reader> reader(Context context) {
        String id = context.cookie(cookie());
        if (id == null) {
            return Optional.empty();
        }
        return sessions.find(id).flatMap(session -> {
            Optional<Account> account = accounts.get()
                    .find(session.name())
                    .filter(found -> !found.closed() && found.changedAt().equals(session.accountChangedAt()));
            if (account.isEmpty()) {
                sessions.end(id);
            }
            return account.map(found -> new Reader(found.name(), found.role(), session.token()));
        });
    }

    /** The header first: to look for the field would read a whole upload. */
    private static boolean carriesToken(Context context, Reader reader) {
        String sent = context.header(TOKEN_HEADER);
        if (sent == null) {
            sent = context.formParam(TOKEN_FIELD);
        }
        return sent != null
                && MessageDigest.isEqual(
                        sent.getBytes(StandardCharsets.UTF_8), reader.token().getBytes(StandardCharsets.UTF_8));
    }

    private void logIn(Context context, Site site) {
        Visit visit = Visit.of(context);
        String name = visit.field("name").strip();
        String place = context.ip();
        Duration wait = attempts.begin(name, place);
        if (!wait.isZero()) {
            context.header("Retry-After", String.valueOf(wait.toSeconds() + 1));
            show(context, site, name, List.of(problem(visit, "log_in.wait", wait.toMinutes() + 1)));
            context.status(HttpStatus.TOO_MANY_REQUESTS);
            return;
        }
        Optional<Account> account = accounts.get().check(name, visit.field("password"));
        if (account.isEmpty()) {
            // not the name: a password is easily typed into its field
            LOG.warn("a log-in from {} was refused", place);
            show(context, site, name, List.of(problem(visit, "log_in.wrong")));
            return;
        }
        attempts.succeeded(name, place);
        begin(context, account.get());
        visit.goTo(local(context.formParam("to")));
    }

    /** Begins an attempt at a password outside the log-in; returns how long to wait, zero when it may be tried. */
    Duration attempt(Context context, String name) {
        return attempts.begin(name, context.ip());
    }

    /** Notes that a password tried outside the log-in was right. */
    void succeeded(Context context, String name) {
        attempts.succeeded(name, context.ip());
    }

    /** Begins a session under a new name, so that a name known before the log-in is worth nothing. */
    void begin(Context context, Account account) {
        String before = context.cookie(cookie());
        if (before != null) {
            sessions.end(before);
        }
        setCookie(context, sessions.begin(account), Sessions.IDLE.toSeconds());
    }

    private void logOut(Context context) {
        String id = context.cookie(cookie());
        if (id != null) {
            sessions.end(id);
        }
        setCookie(context, "", 0);
        context.redirect("/log-in", HttpStatus.SEE_OTHER);
    }

    private static Problem problem(Visit visit, String key, Object... arguments) {
        return new Problem("name", visit.wording().text(key, arguments));
    }

    private void show(Context context, Site site, String name, List<Problem> problems) {
        Visit visit = Visit.of(context);
        site.send(
                visit,
                "login.jte",
                visit.wording(),
                "login",
                visit.wording().text("log_in.title"),
                problems,
                Map.of("name", name, "to", local(wanted(context))));
    }

    private static @Nullable String wanted(Context context) {
        return HandlerType.GET.equals(context.method()) ? context.queryParam("to") : context.formParam("to");
    }

    /** Only an address of these pages: a link that leads elsewhere after the log-in would be a trap. */
    private static String local(@Nullable String address) {
        return address != null && address.matches("/(?![/\\\\])[A-Za-z0-9/._?=&%+-]{0,300}") ? address : "/";
    }

    private String cookie() {
        // the prefix makes browsers refuse a cookie of that name from any other host or without encryption
        return secure ? "__Host-session" : "session";
    }

    /** Lax: with Strict a link in a mail would ask somebody to log in who is logged in; forms carry their secret. */
    private void setCookie(Context context, String value, long seconds) {
        context.res()
                .addHeader(
                        "Set-Cookie",
                        cookie() + "=" + value + "; Path=/; Max-Age=" + seconds + "; SameSite=Lax; HttpOnly"
                                + (secure ? "; Secure" : ""));
    }
}
