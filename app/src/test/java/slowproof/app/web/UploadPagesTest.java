package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URLEncoder;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.files.in.TrialReader;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;

/** Taking recordings in, as a browser without script sees it, but for the sending of files. */
class UploadPagesTest {
    private static final Pattern ID = Pattern.compile("/recordings/([0-9a-f]{32})/files");
    private static final Duration LONGEST = Duration.ofSeconds(60);

    @TempDir
    static Path folder;

    private static Server server;
    private static Visitor visitor;

    @BeforeAll
    static void start() {
        server = Server.start(folder, 0);
        visitor = new Visitor(server.url());
    }

    @AfterAll
    static void stop() {
        server.close();
    }

    private static String begin() {
        Matcher id = ID.matcher(visitor.get("/recordings/new").body());
        assertThat(id.find()).isTrue();
        return "/recordings/" + id.group(1);
    }

    private static HttpResponse<String> send(String sending, String name, byte[] content) {
        return visitor.send(visitor.request(sending + "/files?name=" + URLEncoder.encode(name, StandardCharsets.UTF_8))
                .header("Origin", server.url().substring(0, server.url().length() - 1))
                .header("Content-Type", "application/octet-stream")
                .POST(HttpRequest.BodyPublishers.ofByteArray(content))
                .build());
    }

    private static String sent(String name, String content) {
        String sending = begin();
        HttpResponse<String> answer = send(sending, name, content.getBytes(StandardCharsets.UTF_8));
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.body()).startsWith(name);
        return sending;
    }

    /** Asks again until the logs are read. */
    private static String cut(String sending, String... fields) throws InterruptedException {
        String page = visitor.post(sending + "/cut", fields).body();
        long end = System.nanoTime() + LONGEST.toNanos();
        while (page.contains("id=\"cutting\"")) {
            assertThat(System.nanoTime()).as("time for reading").isLessThan(end);
            Thread.sleep(100);
            page = visitor.get(sending + "/passes").body();
        }
        return page;
    }

    private static String kept(String sending, String... fields) {
        HttpResponse<String> trial = visitor.post(sending + "/keep", fields);
        assertThat(trial.uri().getPath()).startsWith("/trials/");
        return trial.uri().getPath();
    }

    @Test
    void aLogBecomesATrialWithFindingsAndItsFileIsKeptUnchanged() throws Exception {
        String sending = sent("run-07.csv", Recorded.plain());
        String reading = visitor.get(sending).body();
        assertThat(reading).contains("separator: comma", "reference_mm", "0.01 s");
        String page = cut(sending, "count_mm", "0.05");
        assertThat(page).contains("Passes of run-07.csv: 4").contains("4 passes between two of them");
        String trial = kept(
                sending,
                "f1_material",
                "acoustic felt",
                "fact_limit_percent",
                "0.15",
                "fact_reference_uncertainty",
                "0.02",
                "fact_title",
                "Taken in");
        // 0.2 percent lie outside a limit of 0.15 percent
        assertThat(visitor.get(trial).body()).contains("does not conform", "run-07/1", "acoustic felt");
        assertThat(visitor.get("/trials").body()).contains("Taken in");
        assertThat(visitor.get(sending).statusCode()).isEqualTo(404);
        try (Stream<Path> files = Files.walk(folder.resolve("files"))) {
            assertThat(files.filter(Files::isRegularFile).toList())
                    .anySatisfy(file -> assertThat(Files.readString(file)).isEqualTo(Recorded.plain()));
        }
        JsonNode json = new ObjectMapper()
                .readTree(visitor.get(trial + "/findings.json").body());
        assertThat(json.get("passes")).hasSize(4);
        assertThat(json.get("trial").asText()).isEqualTo("Taken in");
        assertThat(json.get("conditions").get(0).get("decision").asText()).isEqualTo("does not conform");
        // its passes come from the recording alone, and can be compared like those of readings
        assertThat(visitor.get("/compare?trial=" + trial.substring("/trials/".length()))
                        .body())
                .contains("the others are compared with this one");
    }

    @Test
    void aCommaInQuotesIsRecognisedAsDecimalSignAndMayBeChosen() throws Exception {
        String sending = sent("run-07.csv", Recorded.plain().replaceAll("(-?[0-9]+)[.]([0-9]+)", "\"$1,$2\""));
        assertThat(visitor.get(sending).body()).contains("separator: comma; decimal sign: comma", "0.01 s");
        assertThat(cut(sending, "count_mm", "0.05", "f1_separator", "comma", "f1_decimal", "comma"))
                .contains("Passes of run-07.csv: 4");
    }

    @Test
    void aTrialTakenAlongIsReadByTheCommandToTheSameFigures() throws Exception {
        String sending = sent("run.csv", Recorded.plain());
        cut(sending, "count_mm", "0.05");
        String trial = kept(sending, "f1_material", "felt", "fact_limit_percent", "0.15");
        Path unpacked = Files.createTempDirectory(folder, "unpacked");
        try (ZipInputStream zip = new ZipInputStream(
                new ByteArrayInputStream(visitor.bytes(trial + "/trial.zip").body()))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                Path file = unpacked.resolve(entry.getName()).normalize();
                assertThat(file.startsWith(unpacked)).isTrue();
                Files.createDirectories(file.getParent());
                Files.copy(zip, file);
            }
        }
        Findings findings =
                Evaluation.of(TrialReader.read(unpacked.resolve("trial.yaml")).trial());
        JsonNode json = new ObjectMapper()
                .readTree(visitor.get(trial + "/findings.json").body());
        assertThat(findings.passes()).hasSameSizeAs(json.get("passes"));
        for (int i = 0; i < findings.passes().size(); i++) {
            assertThat(json.get("passes").get(i).get("id").asText())
                    .isEqualTo(findings.passes().get(i).id());
            assertThat(json.get("passes").get(i).get("error_mm").asDouble())
                    .isEqualTo(findings.passes().get(i).errorMm());
        }
    }

    @Test
    void aFactThatIsCorrectedLaterChangesTheAnswer() throws Exception {
        String sending = sent("run.csv", Recorded.plain());
        cut(sending, "count_mm", "0.05");
        String trial = kept(
                sending, "f1_material", "felt", "fact_limit_percent", "0.15", "fact_reference_uncertainty", "0.02");
        visitor.post(trial + "/facts", "fact_limit_percent", "0.5", "seen", "99");
        assertThat(visitor.get(trial).body()).contains("felt").doesNotContain("class=\"verdict bad\"");
    }

    @Test
    void twoLogsAreCutTogether() throws Exception {
        String sending = sent("sensor.csv", Recorded.sensor());
        send(sending, "axis.csv", Recorded.axis().getBytes(StandardCharsets.UTF_8));
        assertThat(visitor.get(sending).body()).contains("is the reference for sensor.csv");
        String page = cut(sending, "count_mm", "0.05", "f2_part", "of1");
        assertThat(page).contains("Passes of sensor.csv: 4", "Two logs, two clocks");
    }

    @Test
    void aWindowOfTheRecordingKeepsItsPeaks() throws Exception {
        String sending = sent("run.csv", Recorded.plain());
        cut(sending, "count_mm", "0.05");
        JsonNode window = new ObjectMapper()
                .readTree(visitor.get(sending + "/trace/0?from=0&to=46&pieces=100")
                        .body());
        JsonNode speeds = window.get("reference").get(1);
        assertThat(speeds.size()).isLessThanOrEqualTo(202);
        double top = 0;
        for (JsonNode speed : speeds) {
            top = Math.max(top, speed.asDouble());
        }
        assertThat(top).isBetween(99.5, 100.5);
        assertThat(window.get("lost"))
                .isNotEmpty()
                .allSatisfy(time -> assertThat(time.asDouble()).isBetween(32.0, 33.0));
        for (String wrong : new String[] {"0?from=5&to=5", "0?from=x&to=9", "0?from=NaN&to=9", "7?from=0&to=1", "-1"}) {
            assertThat(visitor.get(sending + "/trace/" + wrong).statusCode()).isEqualTo(404);
        }
    }

    @Test
    void whatIsWrongWithALogIsListedWithLineColumnAndRemedy() {
        String sending = sent("run.csv", Recorded.plain().replace("\n0.02,", "\n0.0x2,"));
        HttpResponse<String> answer = visitor.post(sending + "/cut", "count_mm", "0.05");
        assertThat(answer.statusCode()).isEqualTo(422);
        String page = answer.body();
        assertThat(page)
                .contains("href=\"#log-1\"", "This is in the way", "run.csv, line 4, column 1 (time_s)", "0.0x2");
        assertThat(page).doesNotContain("Exception");
    }

    @Test
    void whatIsWrongFurtherDownIsListedOnceTheWholeWasRead() throws Exception {
        String sending = sent("run.csv", Recorded.plain().replace("\n45.99,", "\n45.9x9,"));
        String page = cut(sending, "count_mm", "0.05");
        assertThat(page).contains("cannot be cut into passes", "run.csv, line 4601, column 1 (time_s)");
        assertThat(page).doesNotContain("Keep as a trial");
    }

    @Test
    void aLikelySlipIsAskedAboutAndCanBeConfirmed() throws Exception {
        String sending = sent("run.csv", Recorded.plain());
        String page = cut(sending, "count_mm", "0.5");
        Matcher question =
                Pattern.compile("name=\"(confirm_question_[a-z_]+)\"").matcher(page);
        assertThat(question.find()).as(page).isTrue();
        visitor.post(sending + "/passes", question.group(1), "yes");
        assertThat(cut(sending)).contains("Passes of run.csv: 4");
    }

    @Test
    void aFieldThatIsNoNumberComesBackWithItsMessage() throws Exception {
        String sending = sent("run.csv", Recorded.plain());
        HttpResponse<String> answer = visitor.post(sending + "/cut", "count_mm", "O.05");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body()).contains("id=\"count_mm-problem\"", "value=\"O.05\"");
        cut(sending, "count_mm", "0.05");
        HttpResponse<String> kept = visitor.post(sending + "/keep", "fact_limit_percent", "a bit");
        assertThat(kept.statusCode()).isEqualTo(422);
        assertThat(kept.body()).contains("value=\"a bit\"", "fact_limit_percent-problem");
    }

    @Test
    void filesThatAreNoLogsGetAMessageAndNeverATrace() throws IOException {
        ByteArrayOutputStream bomb = new ByteArrayOutputStream();
        try (GZIPOutputStream out = new GZIPOutputStream(bomb)) {
            byte[] rows = "0,0,0\n".repeat(200_000).getBytes(StandardCharsets.UTF_8);
            for (int i = 0; i < 100; i++) {
                out.write(rows);
            }
        }
        for (byte[] content : new byte[][] {
            {'P', 'K', 3, 4, 9, 9, 9, 9},
            {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10, 0, 0},
            {'P', 'A', 'R', '1', 1, 2},
            {0x1f, (byte) 0x8b, 1, 2, 3},
            "dear all, the log follows".getBytes(StandardCharsets.UTF_8),
            bomb.toByteArray()
        }) {
            String sending = begin();
            assertThat(send(sending, "../../odd<script>.csv", content).statusCode())
                    .isEqualTo(200);
            HttpResponse<String> page = visitor.post(sending + "/cut", "f1_c1", "time");
            assertThat(page.statusCode()).isIn(200, 422);
            assertThat(page.body()).doesNotContain("Exception", "<script>.csv", "\tat ");
        }
        String sending = begin();
        HttpResponse<String> empty = send(sending, "empty.csv", new byte[0]);
        assertThat(empty.statusCode()).isEqualTo(422);
        assertThat(empty.body()).contains("empty.csv: the file is empty");
    }

    @Test
    void nothingIsFoundUnderNamesThatNobodyGave() {
        for (String path : new String[] {
            "/recordings/0123456789abcdef0123456789abcdef", "/recordings/..%2f..", "/recordings/x/passes"
        }) {
            assertThat(visitor.get(path).statusCode()).isIn(400, 404);
        }
        assertThat(send("/recordings/..", "run.csv", new byte[] {1}).statusCode())
                .isNotEqualTo(200);
    }

    @Test
    void filesCanBeRemovedAndTheWholeThrownAway() {
        String sending = sent("one.csv", Recorded.plain());
        send(sending, "two.csv", Recorded.axis().getBytes(StandardCharsets.UTF_8));
        assertThat(visitor.post(sending + "/remove/1").body())
                .contains("two.csv")
                .doesNotContain("one.csv");
        assertThat(visitor.post(sending + "/throw-away").uri().getPath()).isEqualTo("/recordings/new");
        assertThat(visitor.get(sending).statusCode()).isEqualTo(404);
        assertThat(folder.resolve("files/arriving").resolve(sending.substring("/recordings/".length())))
                .doesNotExist();
    }
}
