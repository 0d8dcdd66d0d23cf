package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.Archive;
import slowproof.archive.sheet.Sheet;
import slowproof.files.in.TrialReader;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Evaluation;
import slowproof.wording.Wording;

/** The pages as a browser without script sees them. */
class PagesTest {
    @TempDir
    static Path folder;

    private static Server server;
    private static Visitor visitor;

    @BeforeAll
    static void start() {
        server = Server.start(folder.resolve("archive"), 0);
        visitor = new Visitor(server.url());
    }

    @AfterAll
    static void stop() {
        server.close();
    }

    private static String trialWithReadings(String... readings) {
        String trial = visitor.newTrial();
        visitor.post(trial + "/series", "speed", "50", "from", "0", "to", "600", "surface", "acoustic felt");
        for (String reading : readings) {
            assertThat(visitor.post(trial + "/readings", "reading", reading).statusCode())
                    .isEqualTo(200);
        }
        return trial;
    }

    @Test
    void fourNumbersGiveTheErrorInMillimetresAndPercent() {
        String page = visitor.post("/answer", "moved", "600", "speed", "50", "went_from", "0.0", "went_to", "600.6")
                .body();
        assertThat(page).contains("+0.6<span class=\"unit\"> mm").contains("+0.100<span class=\"unit\"> %");
        assertThat(page).contains("screening only");
    }

    @Test
    void returnGivesTheClosureAndWhatItDoesNotSay() {
        String page = visitor.post(
                        "/answer", "moved", "600", "speed", "50", "went_from", "0.0", "went_to", "600.6", "back", "0.1")
                .body();
        assertThat(page).contains("+0.1<span class=\"unit\"> mm").contains("They may both be large");
        assertThat(page).contains("drawn 200 times larger");
    }

    @Test
    void pageComesBackWithTheInputAndTheSameWordsTwice() {
        HttpResponse<String> answer =
                visitor.post("/answer", "moved", "six", "speed", "50", "went_from", "0.0", "went_to", "600.6");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body())
                .contains("<title>Error: First figure")
                .contains("value=\"six\"")
                .contains("<a href=\"#moved\">\"six\" is not a number")
                .contains("id=\"moved-problem\">\"six\" is not a number");
    }

    @Test
    void typedTextIsEscaped() {
        String page = visitor.post("/answer", "moved", "<script>alert(1)</script>", "speed", "\"><img src=x>")
                .body();
        assertThat(page).doesNotContain("<script>alert").doesNotContain("<img src=x");
        String trial = trialWithReadings("0.0", "600.6");
        visitor.post(trial + "/facts", "fact_title", "<b>&\"'", "fact_notes", "</textarea><script>x()</script>");
        String shown = visitor.get(trial).body();
        assertThat(shown).doesNotContain("<script>x()").doesNotContain("<b>&");
        assertThat(visitor.get("/trials?q=%22%3E%3Cscript%3Ey()").body()).doesNotContain("<script>y()");
    }

    @Test
    void everyPageCarriesAStrictPolicyAndNoInlineScriptOrStyle() {
        String trial = trialWithReadings("0.0", "600.6", "0.3");
        for (String path : List.of("/", "/trials", trial, trial + "/bench", "/no-such-page")) {
            HttpResponse<String> answer = visitor.get(path);
            String policy =
                    answer.headers().firstValue("Content-Security-Policy").orElse("");
            assertThat(policy)
                    .contains("default-src 'none'")
                    .contains("script-src 'self'")
                    .doesNotContain("unsafe");
            assertThat(answer.headers().firstValue("X-Content-Type-Options")).contains("nosniff");
            assertThat(answer.body())
                    .doesNotContain(" style=\"")
                    .doesNotContain("<style")
                    .doesNotContain("onclick")
                    .doesNotContain("<script>");
        }
    }

    @Test
    void foreignHostIsRefused() throws IOException {
        assertThat(raw("GET / HTTP/1.1\r\nHost: bench.example:80\r\nConnection: close\r\n\r\n"))
                .startsWith("HTTP/1.1 421");
        assertThat(raw("GET / HTTP/1.1\r\nHost: localhost:" + server.port() + "\r\nConnection: close\r\n\r\n"))
                .startsWith("HTTP/1.1 200");
    }

    private static String raw(String request) throws IOException {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port())) {
            OutputStream out = socket.getOutputStream();
            out.write(request.getBytes(StandardCharsets.US_ASCII));
            out.flush();
            try (InputStream in = socket.getInputStream()) {
                return new String(in.readAllBytes(), StandardCharsets.UTF_8);
            }
        }
    }

    @Test
    void postWithoutOrFromAForeignOriginIsRefused() {
        HttpRequest.BodyPublisher body = HttpRequest.BodyPublishers.ofString("moved=1");
        assertThat(visitor.send(visitor.request("/trials").POST(body).build()).statusCode())
                .isEqualTo(403);
        HttpRequest foreign = visitor.request("/trials")
                .header("Origin", "http://bench.example")
                .POST(body)
                .build();
        assertThat(visitor.send(foreign).statusCode()).isEqualTo(403);
        HttpRequest sandboxed =
                visitor.request("/trials").header("Origin", "null").POST(body).build();
        assertThat(visitor.send(sandboxed).statusCode()).isEqualTo(403);
    }

    @Test
    void nothingIsListedAndOnlyNamedAssetsExist() {
        for (String path : List.of(
                "/assets/",
                "/assets/1/",
                "/assets/1/pages.css",
                "/assets/1/..%2f..%2fServer.class",
                "/META-INF/",
                "/webjars/")) {
            assertThat(visitor.get(path).statusCode()).as(path).isIn(400, 404);
        }
    }

    @Test
    void assetsOfThePageAreThereAndMayBeKeptForGood() {
        String page = visitor.get("/").body();
        for (String asset : page.split("\"")) {
            if (asset.startsWith("/assets/")) {
                HttpResponse<String> answer = visitor.get(asset);
                assertThat(answer.statusCode()).as(asset).isEqualTo(200);
                assertThat(answer.headers().firstValue("Cache-Control").orElse(""))
                        .contains("immutable");
            }
        }
    }

    @Test
    void blanksOfTheFirstPageStayWithTheBrowser() {
        Visitor other = new Visitor(server.url());
        other.get("/");
        other.post("/answer", "moved", "712.5", "speed", "");
        assertThat(other.get("/").body()).contains("value=\"712.5\"");
        assertThat(new Visitor(server.url()).get("/").body()).doesNotContain("712.5");
        other.post("/clear");
        assertThat(other.get("/").body()).doesNotContain("712.5");
    }

    @Test
    void keptSheetBecomesATrialWithTheSameFigures() {
        HttpResponse<String> bench = visitor.post(
                "/keep", "moved", "600", "speed", "50", "went_from", "0.0", "went_to", "600.6", "back", "0.3");
        assertThat(bench.uri().getPath()).endsWith("/bench");
        assertThat(bench.body()).contains("+0.3<span class=\"unit\"> mm").contains("Move to 600 mm at 50 mm/s");
    }

    @Test
    void sameFormSentTwiceIsRecordedOnce() {
        String trial = trialWithReadings("0.0");
        visitor.post(trial + "/readings", "reading", "600.6", "token", "one");
        visitor.post(trial + "/readings", "reading", "600.6", "token", "one");
        assertThat(visitor.get(trial + "/bench").body())
                .contains("pass 1, forward")
                .doesNotContain("pass 2");
    }

    @Test
    void slipIsQuestionedAtOnceAndKeptWhenConfirmed() {
        String trial = trialWithReadings("0.0");
        HttpResponse<String> asked = visitor.post(trial + "/readings", "reading", "0.6");
        assertThat(asked.statusCode()).isEqualTo(422);
        assertThat(asked.body())
                .contains("is that the error instead of the reading")
                .contains("value=\"0.6\"");
        assertThat(visitor.post(trial + "/readings", "reading", "0.6", "confirmed", "6")
                        .statusCode())
                .isEqualTo(422);
        assertThat(visitor.post(trial + "/readings", "reading", "0.6", "confirmed", "0.6")
                        .statusCode())
                .isEqualTo(200);
        assertThat(visitor.get(trial + "/bench").body()).contains("pass 1, forward");
    }

    @Test
    void misplacedDigitAndMetresAreQuestioned() {
        String trial = trialWithReadings("0.0");
        assertThat(visitor.post(trial + "/readings", "reading", "6006").body())
                .contains("is the decimal mark in its place");
        assertThat(visitor.post(trial + "/readings", "reading", "0.6006").statusCode())
                .isEqualTo(422);
        assertThat(visitor.post(trial + "/readings", "reading", "0.6006 m").statusCode())
                .isEqualTo(200);
    }

    @Test
    void undoTakesBackAndBringsBack() {
        String trial = trialWithReadings("0.0", "600.6", "0.3");
        String before = visitor.get(trial + "/bench").body();
        assertThat(before).contains("Take back 0.3").contains("pass 2, return");
        String undone = visitor.post(trial + "/undo", "seq", "5").body();
        assertThat(undone).contains("pass 1, forward").contains("Bring it back");
        assertThat(visitor.post(trial + "/undo", "seq", "6").body()).contains("pass 2, return");
        assertThat(visitor.post(trial + "/undo", "seq", "3").body()).contains("pass 2, return");
    }

    @Test
    void spoiledPassNeedsAReasonAndIsLeftOutWithIt() {
        String trial = trialWithReadings("0.0", "600.6", "4.3", "604.9");
        assertThat(visitor.post(trial + "/remark", "of", "5", "kind", "spoiled", "remark_5", "")
                        .statusCode())
                .isEqualTo(422);
        String bench = visitor.post(trial + "/remark", "of", "5", "kind", "spoiled", "remark_5", "cable caught")
                .body();
        assertThat(bench).contains("Left out: cable caught");
        assertThat(visitor.post(trial + "/remark", "of", "5", "kind", "counts").body())
                .doesNotContain("Left out");
    }

    @Test
    void factsTurnAScreeningIntoADecision() {
        String trial = trialWithReadings("0.0", "600.2", "0.1", "600.3", "0.1", "600.2", "0.0");
        assertThat(visitor.get(trial).body()).contains("Screening only").contains("#fact_limit_percent");
        HttpResponse<String> refused =
                visitor.post(trial + "/facts", "fact_limit_percent", "a little", "fact_title", "Felt at the cutter");
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body())
                .contains("value=\"a little\"")
                .contains("value=\"Felt at the cutter\"")
                .contains("href=\"#fact_limit_percent\"");
        String decided = visitor.post(
                        trial + "/facts", "fact_limit_percent", "0.15", "fact_reference_uncertainty", "0.02")
                .body();
        assertThat(decided).contains("conforms").contains("probability of &gt; 99.9 %");
    }

    @Test
    void zipReadsBackToTheSameNumbers() throws IOException {
        String trial = trialWithReadings("0.0", "600.2-600.4", "0.1", "600.3", "0.1", "600.2", "0.0");
        visitor.post(trial + "/remark", "of", "6", "kind", "spoiled", "remark_6", "cable \"caught\"; again");
        visitor.post(
                trial + "/facts",
                "fact_limit_percent",
                "0.7",
                "fact_reference_uncertainty",
                "0.02",
                "fact_title",
                "Ünlovely: title #1",
                "fact_misalignment",
                "0.3",
                "fact_temperature",
                "22.5",
                "fact_temperature_half_width",
                "1",
                "fact_expansion",
                "11.5");
        Path unpacked = Files.createDirectories(folder.resolve("unpacked"));
        HttpResponse<byte[]> zip = visitor.bytes(trial + "/trial.zip");
        assertThat(zip.headers().firstValue("Content-Disposition").orElse("")).contains("uenlovely-title-1.zip");
        List<String> names = new ArrayList<>();
        try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(zip.body()))) {
            for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                names.add(entry.getName());
                Path file = unpacked.resolve(entry.getName());
                Files.createDirectories(file.getParent());
                Files.write(file, in.readAllBytes());
            }
        }
        assertThat(names)
                .contains(
                        "trial.yaml",
                        "readings.csv",
                        "notes.txt",
                        "history.csv",
                        "events.json",
                        "findings.json",
                        "manifest.json");
        List<Condition> read = Evaluation.of(
                        TrialReader.read(unpacked.resolve("trial.yaml")).trial())
                .conditions();
        List<Condition> own = Evaluated.of(
                        archived(trial),
                        KeptRecordings.Read.NOTHING,
                        Wording.of(Locale.ENGLISH).withPages().text("surface.unnamed"),
                        ZoneId.systemDefault())
                .said()
                .conditions();
        assertThat(read).isEqualTo(own);
    }

    private static Sheet archived(String trial) {
        try (Archive archive = Archive.open(folder.resolve("archive"), Clock.systemUTC())) {
            return archive.sheet(trial.substring("/trials/".length()));
        }
    }

    @Test
    void findingsComeAsJson() {
        String trial = trialWithReadings("0.0", "600.6", "0.3");
        HttpResponse<String> json = visitor.get(trial + "/findings.json");
        assertThat(json.headers().firstValue("Content-Type").orElse("")).startsWith("application/json");
        assertThat(json.body())
                .startsWith("{")
                .contains("\"schema\"")
                .contains("findings/1")
                .contains("\"error_mm\"");
    }

    @Test
    void conditionsComeAsTableAndWorkbook() {
        String trial = trialWithReadings("0.0", "600.6", "0.3");
        HttpResponse<String> csv = visitor.get(trial + "/conditions.csv");
        assertThat(csv.headers().firstValue("Content-Type").orElse("")).startsWith("text/csv");
        assertThat(csv.body().lines().count()).isEqualTo(4);
        byte[] workbook = visitor.bytes(trial + "/findings.xlsx").body();
        assertThat(workbook).startsWith('P', 'K');
        assertThat(visitor.get(visitor.newTrial() + "/findings.json").statusCode())
                .isEqualTo(404);
    }

    @Test
    void onlyPicturesOfBoundedSizeAreTakenIn() {
        String trial = visitor.newTrial();
        byte[] png = {(byte) 0x89, 'P', 'N', 'G', 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3};
        assertThat(upload(trial, "bench.png", png).body()).contains("alt=\"bench.png\"");
        HttpResponse<String> refused = upload(trial, "page.png", "<html>".getBytes(StandardCharsets.UTF_8));
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body()).contains("no JPEG, PNG or WebP");
        byte[] huge = new byte[(Photos.LARGEST_MB + 1) << 20];
        System.arraycopy(png, 0, huge, 0, png.length);
        assertThat(upload(trial, "huge.png", huge).statusCode()).isIn(400, 413);
        String source = visitor.get(trial).body().replaceAll("(?s).*<img src=\"([^\"]*)\".*", "$1");
        HttpResponse<byte[]> photo = visitor.bytes(source);
        assertThat(photo.body()).isEqualTo(png);
        assertThat(photo.headers().firstValue("Content-Type")).contains("image/png");
        assertThat(visitor.get(source.replaceAll("[0-9a-f]{64}", "0".repeat(64)))
                        .statusCode())
                .isEqualTo(404);
    }

    private static HttpResponse<String> upload(String trial, String name, byte[] content) {
        String boundary = "frontier";
        byte[] head = ("--" + boundary + "\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"" + name
                        + "\"\r\nContent-Type: image/png\r\n\r\n")
                .getBytes(StandardCharsets.UTF_8);
        byte[] foot = ("\r\n--" + boundary + "--\r\n").getBytes(StandardCharsets.UTF_8);
        return visitor.send(visitor.request(trial + "/photos")
                .header("Origin", server.url().substring(0, server.url().length() - 1))
                .header("Content-Type", "multipart/form-data; boundary=" + boundary)
                .POST(HttpRequest.BodyPublishers.ofByteArrays(List.of(head, content, foot)))
                .build());
    }

    @Test
    void formLargerThanAMegabyteIsRefused() {
        assertThat(visitor.post("/answer", "moved", "6".repeat(1 << 21)).statusCode())
                .isIn(400, 413);
    }

    @Test
    void languageIsChosenByTheBrowserAndKeptWhenThePersonChooses() {
        Visitor other = new Visitor(server.url());
        assertThat(other.get("/").body()).contains("How far off is it?");
        HttpRequest german = HttpRequest.newBuilder(URI.create(server.url()))
                .header("Accept-Language", "fr-FR, de-CH;q=0.8, en;q=0.5")
                .build();
        assertThat(other.send(german).body()).contains("Wie weit liegt er daneben?");
        assertThat(other.get("/?language=de").body()).contains("Wie weit liegt er daneben?");
        assertThat(other.get("/trials").body()).contains("Versuche");
    }

    @Test
    void emptyListTeachesAndUnknownTrialIsSaid() {
        assertThat(visitor.get("/trials/nosuchtrial1").statusCode()).isEqualTo(404);
        try (Server fresh = Server.start(folder.resolve("fresh"), 0)) {
            assertThat(new Visitor(fresh.url()).get("/trials").body()).contains("A trial grows from one number");
        }
    }

    @Test
    void takenPortIsNamedWithTheOptionThatChangesIt() {
        assertThatThrownBy(() -> Server.start(folder.resolve("other"), server.port()))
                .isInstanceOfSatisfying(
                        ServerRefusedException.class,
                        e -> assertThat(e.sentence(Wording.of(Locale.ENGLISH)))
                                .contains("127.0.0.1:" + server.port())
                                .contains("--port " + (server.port() + 1)));
    }

    @Test
    void withoutAccountsOnlyLoopbackAddressesAreServed() {
        for (String host : List.of("0.0.0.0", "192.0.2.7", "no such host")) {
            assertThatThrownBy(() -> Server.start(folder.resolve("other"), new Reach(host, 0, null)))
                    .isInstanceOfSatisfying(
                            ServerRefusedException.class,
                            e -> assertThat(e.sentence(Wording.of(Locale.GERMAN)))
                                    .contains(host));
        }
    }

    @Test
    void theChoiceOfALanguageLeadsNowhereElse() {
        HttpResponse<String> answer = visitor.sendOnly(
                visitor.request("//elsewhere.example/a?language=de").GET().build());
        assertThat(answer.headers().firstValue("Location").orElse("")).doesNotContain("//elsewhere");
    }
}
