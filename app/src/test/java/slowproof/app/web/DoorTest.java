package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.Archive;
import slowproof.archive.account.Accounts;
import slowproof.archive.account.Role;

/** The pages where others than the person at this machine can come. */
class DoorTest {
    private static final String PASSWORD = "felt and film at noon";
    private static final Pattern TOKEN = Pattern.compile("name=\"form-token\" content=\"([0-9a-f]{64})\"");

    @TempDir
    static Path folder;

    private static Server server;
    private static final Turning CLOCK = new Turning();

    @BeforeAll
    static void start() throws IOException {
        try (Archive archive = Archive.open(folder.resolve("archive"), CLOCK)) {
            Accounts accounts = archive.accounts();
            accounts.add("ada", Role.ADMIN, PASSWORD);
            accounts.add("ben", Role.BENCH, PASSWORD);
            accounts.add("rea", Role.READ, PASSWORD);
        }
        server = Server.start(folder.resolve("archive"), reach("http"), CLOCK);
    }

    private static Reach reach(String scheme) throws IOException {
        try (ServerSocket free = new ServerSocket(0)) {
            int port = free.getLocalPort();
            return new Reach("127.0.0.1", port, URI.create(scheme + "://localhost:" + port));
        }
    }

    @AfterAll
    static void stop() {
        server.close();
    }

    private static Visitor visitor() {
        return new Visitor(server.url());
    }

    private static Visitor loggedIn(String name) {
        Visitor visitor = visitor();
        assertThat(visitor.post("/log-in", "name", name, "password", PASSWORD).body())
                .contains("name=\"form-token\"");
        return visitor;
    }

    private static String token(Visitor visitor) {
        Matcher found = TOKEN.matcher(visitor.get("/trials").body());
        assertThat(found.find()).isTrue();
        return found.group(1);
    }

    @Test
    void everyPageAsksForALogIn() {
        for (String path : List.of("/", "/trials", "/accounts", "/no-such-page", "/trials/abc/findings.json")) {
            HttpResponse<String> answer = visitor().get(path);
            assertThat(answer.uri().getPath()).as(path).isEqualTo("/log-in");
        }
        assertThat(visitor().post("/trials").statusCode()).isEqualTo(401);
        assertThat(visitor().get(Assets.address("pages.css")).statusCode()).isEqualTo(200);
    }

    @Test
    void theLogInLeadsToThePageThatWasWantedAndNeverElsewhere() {
        assertThat(visitor()
                        .post("/log-in", "name", "ben", "password", PASSWORD, "to", "/trials")
                        .uri()
                        .getPath())
                .isEqualTo("/trials");
        for (String elsewhere : List.of("//evil.example", "/\\evil.example", "https://evil.example", "/%0d%0aX: y")) {
            HttpResponse<String> answer =
                    visitor().post("/log-in", "name", "ben", "password", PASSWORD, "to", elsewhere);
            assertThat(answer.uri().getHost()).isEqualTo("localhost");
            assertThat(answer.headers().firstValue("X")).isEmpty();
        }
    }

    @Test
    void whoMayReadGetsDraftsAndWhatWasReleasedAndReleasesNothing() {
        Visitor ben = loggedIn("ben");
        Visitor rea = loggedIn("rea");
        String bens = token(ben);
        String reas = token(rea);
        String trial = ben.post("/trials", "form_token", bens).uri().getPath().replace("/bench", "");
        ben.post(trial + "/series", "form_token", bens, "speed", "50", "from", "0", "to", "600", "start", "0");
        ben.post(trial + "/readings", "form_token", bens, "reading", "600.6");
        String[] release = {"released_by", "Rea Example", "released_on", "2026-03-02", "form_token", reas};
        assertThat(rea.post(trial + "/answer/release", release).statusCode()).isEqualTo(403);
        assertThat(rea.get(trial + "/answer").body())
                .contains("your account may read only")
                .doesNotContain("name=\"released_by\"");
        assertThat(rea.get(trial + "/answer/draft?form=html").body()).contains("Draft, not released");
        release[5] = bens;
        assertThat(ben.post(trial + "/answer/release", release).body())
                .contains("Released by Rea Example on 2026-03-02.")
                .contains(", ben.");
        assertThat(rea.bytes(trial + "/answer/1").statusCode()).isEqualTo(200);
        assertThat(visitor().get(trial + "/answer/1").uri().getPath()).isEqualTo("/log-in");
    }

    @Test
    void whatIsRecordedSaysWhoseItIsAndDraftsAreOnesOwn() {
        Visitor ben = loggedIn("ben");
        Visitor ada = loggedIn("ada");
        String bens = token(ben);
        String adas = token(ada);
        String trial = ben.post("/trials", "form_token", bens).uri().getPath().replace("/bench", "");
        ben.post(trial + "/series", "form_token", bens, "speed", "50", "from", "0", "to", "600", "start", "0");
        ben.post(trial + "/draft", "form_token", bens, "reading", "61234");
        assertThat(ben.get(trial + "/bench").body()).contains("value=\"61234\"");
        assertThat(ada.get(trial + "/bench").body()).doesNotContain("61234");
        String seen = ben.get(trial).body().replaceAll("(?s).*name=\"seen\" value=\"([0-9]+)\".*", "$1");
        ada.post(trial + "/readings", "form_token", adas, "reading", "600.6", "seen", seen);
        assertThat(ben.post(trial + "/readings", "form_token", bens, "reading", "600.5", "seen", seen)
                        .body())
                .contains(", ada: reading 600.6")
                .contains("Your reading 600.5 is not recorded yet");
    }

    @Test
    void theRoleSaysWhatMayBeDone() {
        assertThat(loggedIn("rea").get("/trials").statusCode()).isEqualTo(200);
        Visitor reader = loggedIn("rea");
        assertThat(reader.post("/trials", "form_token", token(reader)).statusCode())
                .isEqualTo(403);
        assertThat(reader.get("/accounts").statusCode()).isEqualTo(403);
        Visitor bench = loggedIn("ben");
        assertThat(bench.post("/trials", "form_token", token(bench)).statusCode())
                .isEqualTo(200);
        assertThat(bench.get("/accounts").statusCode()).isEqualTo(403);
        assertThat(bench.post("/accounts/ben", "form_token", token(bench), "what", "role", "role", "admin")
                        .statusCode())
                .isEqualTo(403);
        assertThat(loggedIn("ada").get("/accounts").statusCode()).isEqualTo(200);
    }

    @Test
    void aFormWithoutTheSecretOfItsSessionRecordsNothing() {
        Visitor bench = loggedIn("ben");
        String right = token(bench);
        assertThat(bench.post("/trials").statusCode()).isEqualTo(403);
        assertThat(bench.post("/trials", "form_token", token(loggedIn("ben"))).statusCode())
                .isEqualTo(403);
        HttpRequest byScript = bench.request("/trials")
                .header("Origin", server.url().substring(0, server.url().length() - 1))
                .header(Door.TOKEN_HEADER, right)
                .POST(HttpRequest.BodyPublishers.noBody())
                .build();
        assertThat(bench.send(byScript).statusCode()).isEqualTo(200);
    }

    @Test
    void everyFormCarriesTheSecret() {
        Visitor admin = loggedIn("ada");
        String trial = admin.post("/trials", "form_token", token(admin)).uri().getPath();
        for (String path : List.of("/", "/trials", "/account", "/accounts", trial, trial.replace("/bench", ""))) {
            String page = admin.get(path).body();
            int forms = page.split("method=\"post\"", -1).length - 1;
            assertThat(page.split("name=\"form_token\" value=\"", -1).length - 1)
                    .as(path)
                    .isEqualTo(forms)
                    .isPositive();
        }
    }

    @Test
    void wrongPasswordsMakeTheNameWait() {
        for (int i = 0; i < Attempts.MOST_BY_NAME; i++) {
            assertThat(visitor()
                            .post("/log-in", "name", "nobody", "password", "wrong " + i)
                            .statusCode())
                    .isEqualTo(422);
        }
        HttpResponse<String> refused = visitor().post("/log-in", "name", "nobody", "password", "wrong");
        assertThat(refused.statusCode()).isEqualTo(429);
        assertThat(refused.headers().firstValueAsLong("Retry-After").orElse(0)).isPositive();
        assertThat(refused.body()).contains("Too many wrong passwords").doesNotContain("form-token");
        CLOCK.turn(Attempts.WITHIN);
        assertThat(visitor()
                        .post("/log-in", "name", "nobody", "password", "wrong")
                        .statusCode())
                .isEqualTo(422);
    }

    @Test
    void aSessionEndsByLoggingOutByTimeAndWhenTheAccountChanges() {
        Visitor visitor = loggedIn("ben");
        visitor.post("/log-out", "form_token", token(visitor));
        assertThat(visitor.get("/trials").uri().getPath()).isEqualTo("/log-in");

        Visitor waiting = loggedIn("ben");
        CLOCK.turn(Sessions.IDLE.plusSeconds(1));
        assertThat(waiting.get("/trials").uri().getPath()).isEqualTo("/log-in");

        Visitor admin = loggedIn("ada");
        admin.post("/accounts", "form_token", token(admin), "name", "tom", "role", "bench", "password", PASSWORD);
        Visitor tom = loggedIn("tom");
        assertThat(tom.get("/trials").uri().getPath()).isEqualTo("/trials");
        admin.post("/accounts/tom", "form_token", token(admin), "what", "close");
        assertThat(tom.get("/trials").uri().getPath()).isEqualTo("/log-in");
        assertThat(visitor()
                        .post("/log-in", "name", "tom", "password", PASSWORD)
                        .statusCode())
                .isEqualTo(422);
    }

    @Test
    void theOwnPasswordIsChangedByThoseWhoKnowIt() {
        Visitor admin = loggedIn("ada");
        admin.post("/accounts", "form_token", token(admin), "name", "uli", "role", "bench", "password", PASSWORD);
        Visitor uli = loggedIn("uli");
        Visitor elsewhere = loggedIn("uli");
        String next = "clear film before dawn";
        assertThat(change(uli, "not the old one", next).statusCode()).isEqualTo(422);
        assertThat(change(uli, PASSWORD, "short").statusCode()).isEqualTo(422);
        HttpResponse<String> changed = change(uli, PASSWORD, next);
        assertThat(changed.statusCode()).isEqualTo(200);
        assertThat(uli.get("/trials").uri().getPath()).isEqualTo("/trials");
        assertThat(elsewhere.get("/trials").uri().getPath()).isEqualTo("/log-in");
        assertThat(visitor()
                        .post("/log-in", "name", "uli", "password", PASSWORD)
                        .statusCode())
                .isEqualTo(422);
    }

    private static HttpResponse<String> change(Visitor visitor, String before, String after) {
        return visitor.post(
                "/account",
                "form_token",
                token(visitor),
                "old_password",
                before,
                "new_password",
                after,
                "again",
                after);
    }

    @Test
    void theCookieIsOutOfReachOfScriptsAndOfPlainConnections() throws IOException {
        Reach reach = reach("https");
        try (Server secure = Server.start(folder.resolve("archive"), reach, CLOCK)) {
            // the proxy before it ends the encryption and leaves host and origin as they came
            Visitor behindProxy = new Visitor("http://localhost:" + secure.port() + "/");
            HttpRequest logIn = behindProxy
                    .request("/log-in")
                    .header("Origin", "https://localhost:" + secure.port())
                    .header("Content-Type", "application/x-www-form-urlencoded")
                    .POST(HttpRequest.BodyPublishers.ofString("name=ben&password=" + PASSWORD.replace(' ', '+')))
                    .build();
            HttpResponse<String> answer = behindProxy.sendOnly(logIn);
            assertThat(answer.headers().allValues("Set-Cookie"))
                    .anySatisfy(cookie -> assertThat(cookie)
                            .startsWith("__Host-session=")
                            .contains("; HttpOnly", "; Secure", "; SameSite=Lax", "; Path=/"));
            assertThat(answer.headers().firstValue("Strict-Transport-Security")).isPresent();
        }
    }

    @Test
    void thePagesAreNotOpenedToOthersWithoutAccountsOrByMistake() throws IOException {
        Reach open = reach("https");
        assertThatThrownBy(() -> Server.start(folder.resolve("empty"), open)).hasMessageContaining("no_accounts");
        Reach everywhere = new Reach("0.0.0.0", 0, null);
        assertThatThrownBy(() -> Server.start(folder.resolve("empty"), everywhere))
                .hasMessageContaining("reached_as");
        for (String address : List.of("ftp://a.example", "https://a.example/inside", "a.example")) {
            Reach odd = new Reach("127.0.0.1", 0, URI.create(address));
            assertThatThrownBy(() -> Server.start(folder.resolve("empty"), odd))
                    .as(address)
                    .hasMessageContaining("refused.address");
        }
    }

    /** A clock that a test turns. */
    private static final class Turning extends Clock {
        private Instant now = Instant.parse("2026-11-27T08:00:00Z");

        void turn(Duration by) {
            now = now.plus(by);
        }

        @Override
        public Instant instant() {
            return now;
        }

        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return this;
        }
    }

    @Test
    void anUploadBeforeTheLogInIsNotLookedInto() {
        HttpRequest upload = visitor()
                .request("/take-in")
                .header("Origin", server.url().substring(0, server.url().length() - 1))
                .header("Content-Type", "multipart/form-data; boundary=frontier")
                .POST(HttpRequest.BodyPublishers.ofString("--frontier\r\nthat would be no form"))
                .build();
        HttpResponse<String> answer = visitor().sendOnly(upload);
        // read as a form it would be refused as broken, with status 400
        assertThat(answer.statusCode()).isEqualTo(401);
        assertThat(answer.body()).doesNotContain("<form");
    }

    @Test
    void attemptsThatRunAtOnceCountBeforeTheyAreDecided() {
        Attempts attempts = new Attempts(new Turning());
        for (int i = 0; i < Attempts.MOST_BY_NAME; i++) {
            assertThat(attempts.begin("kim", "here")).isZero();
        }
        assertThat(attempts.begin("kim", "here")).isPositive();
        attempts.succeeded("kim", "here");
        assertThat(attempts.begin("kim", "here")).isZero();
    }

    @Test
    void theOwnPasswordCannotBeGuessedWithASessionEither() {
        Visitor admin = loggedIn("ada");
        admin.post("/accounts", "form_token", token(admin), "name", "ira", "role", "bench", "password", PASSWORD);
        Visitor ira = loggedIn("ira");
        for (int i = 0; i < Attempts.MOST_BY_NAME; i++) {
            assertThat(change(ira, "guess number " + i, "clear film before dawn")
                            .body())
                    .contains("not the password so far");
        }
        assertThat(change(ira, PASSWORD, "clear film before dawn").body()).contains("Too many wrong passwords");
        CLOCK.turn(Attempts.WITHIN);
        assertThat(change(ira, PASSWORD, "clear film before dawn").statusCode()).isEqualTo(200);
    }
}
