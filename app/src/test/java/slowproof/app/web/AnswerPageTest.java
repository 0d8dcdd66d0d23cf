package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.app.CommandRun;

/** The written answer from the pages: drafts, releases that stay as they are, amendments that say what changed. */
class AnswerPageTest {
    private static final Pattern SEEN = Pattern.compile("name=\"seen\" value=\"([0-9]+)\"");
    private static final Pattern LAST = Pattern.compile("name=\"seq\" value=\"([0-9]+)\"");

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

    /** An invented trial with one forward pass of +0.6 mm and two return passes; returns its path. */
    private static String trial() {
        String trial = visitor.newTrial();
        visitor.post(
                trial + "/facts",
                "fact_title",
                "Felt <1>",
                "fact_limit_percent",
                "0.15",
                "fact_reference_uncertainty",
                "0.02",
                "fact_acceleration",
                "500");
        visitor.post(trial + "/series", "speed", "50", "from", "0", "to", "600", "surface", "acoustic felt");
        for (String reading : List.of("0.0", "600.6", "0.2", "600.7", "0.1")) {
            visitor.post(trial + "/readings", "reading", reading);
        }
        return trial;
    }

    private static HttpResponse<String> release(String trial, String... fields) {
        List<String> all = new ArrayList<>(List.of("released_by", "Ines Example", "released_on", "2026-03-02"));
        all.addAll(List.of(fields));
        return visitor.post(trial + "/answer/release", all.toArray(new String[0]));
    }

    private static String found(Pattern pattern, String page) {
        Matcher found = pattern.matcher(page);
        assertThat(found.find()).isTrue();
        return found.group(1);
    }

    private static String text(byte[] pdf) throws IOException {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
        }
    }

    @Test
    void trialLeadsToADraftInTheChosenLanguagePaperAndForm() throws IOException {
        String trial = trial();
        assertThat(visitor.get(trial).body()).contains("href=\"" + trial + "/answer\"");
        assertThat(visitor.get(trial + "/line").body()).contains("href=\"" + trial + "/answer?material=");
        HttpResponse<byte[]> letter = visitor.bytes(trial + "/answer/draft?written_in=de&paper=letter&form=pdf");
        assertThat(letter.headers().firstValue("Content-Type")).contains("application/pdf");
        assertThat(letter.headers().firstValue("Content-Disposition"))
                .contains("attachment; filename=\"felt-1-answer-draft.pdf\"");
        try (PDDocument document = Loader.loadPDF(letter.body())) {
            // 8.5 x 11 in at 72 points an inch
            assertThat(document.getPage(0).getMediaBox().getWidth()).isEqualTo(612);
            assertThat(document.getPage(0).getMediaBox().getHeight()).isEqualTo(792);
        }
        assertThat(text(letter.body())).contains("Entwurf, nicht freigegeben").contains("ENTWURF");
        HttpResponse<byte[]> html = visitor.bytes(trial + "/answer/draft?form=html");
        assertThat(html.headers().firstValue("Content-Type")).contains("text/html;charset=utf-8");
        assertThat(new String(html.body(), StandardCharsets.UTF_8)).contains("Draft, not released");
    }

    @Test
    void draftIsGivenToAClientThatClaimsToSendAFormWithItsQuestion() {
        String trial = trial();
        HttpRequest odd = visitor.request(trial + "/answer/draft")
                .header("Content-Type", "multipart/form-data; boundary=frontier")
                .GET()
                .build();
        assertThat(visitor.sendOnly(odd).statusCode()).isEqualTo(200);
    }

    @Test
    void releaseWithoutPersonOrDayIsRefusedInWords() {
        String trial = trial();
        HttpResponse<String> nobody =
                visitor.post(trial + "/answer/release", "released_by", "  ", "released_on", "", "written_in", "de");
        assertThat(nobody.statusCode()).isEqualTo(422);
        assertThat(nobody.body())
                .contains("<a href=\"#released_by\">A release needs the name of the person")
                .contains("<a href=\"#released_on\">A release needs its date.")
                .contains("<option value=\"de\" selected>");
    }

    @Test
    void dayThatIsNoneOrLaterThanTodayIsRefused() {
        String trial = trial();
        for (String day : List.of("2026-02-30", "26.11.2026", "tomorrow")) {
            HttpResponse<String> odd =
                    visitor.post(trial + "/answer/release", "released_by", "Ines", "released_on", day);
            assertThat(odd.statusCode()).as(day).isEqualTo(422);
            assertThat(odd.body()).contains("id=\"released_on-problem\">\"" + day + "\" is not a date");
        }
        assertThat(visitor.post(trial + "/answer/release", "released_by", "Ines", "released_on", "9999-01-01")
                        .body())
                .contains("9999-01-01 is later than today");
        assertThat(visitor.get(trial + "/answer").body()).contains("Nothing was released yet.");
    }

    @Test
    void releasedBytesStayWhenAReadingIsChangedAndTheAmendmentSaysSo() throws IOException {
        String trial = trial();
        assertThat(release(trial).body()).contains("Answer 1 stands").doesNotContain("class=\"flag\"");
        byte[] first = visitor.bytes(trial + "/answer/1").body();
        assertThat(text(first))
                .contains("Released by Ines Example on 2026-03-02")
                .contains("600.5 +0.5 +0.083");
        // the last reading is taken back and read anew
        visitor.post(
                trial + "/undo",
                "seq",
                found(LAST, visitor.get(trial + "/bench").body()));
        visitor.post(trial + "/readings", "reading", "0.4");
        assertThat(visitor.bytes(trial + "/answer/1").body()).isEqualTo(first);
        String page = visitor.get(trial + "/answer").body();
        assertThat(page)
                .contains("<span class=\"flag\">the trial was changed since")
                .contains("<option value=\"1\" selected>answer 1");
        assertThat(release(trial).body()).contains("Answer 1 in this language stands.");
        assertThat(release(trial, "supersedes", "1").body()).contains("This release supersedes answer 1: type the");
        String amended = release(trial, "supersedes", "1", "reason", "Reading 5 was <misread>")
                .body();
        assertThat(amended)
                .contains("Answer 1, superseded by answer 2")
                .contains("Answer 2 stands")
                .contains("Supersedes answer 1. Reason: Reading 5 was &lt;misread&gt;");
        byte[] second = visitor.bytes(trial + "/answer/2").body();
        assertThat(text(second))
                .contains("What changed")
                .contains("Reason: Reading 5 was <misread>")
                .contains("supersedes one with the SHA-256")
                // 0.4 - 600.7 is 599.7 - 600 = 0.3 mm short; 0.1 - 600.7 was 0.6 mm long
                .containsPattern("passes\\[3]\\.error_mm \\(acoustic-felt-50/4\\) 0\\.6\\d* 0\\.3");
        assertThat(visitor.bytes(trial + "/answer/1").body()).isEqualTo(first);
        assertThat(release(trial, "supersedes", "1", "reason", "again").body())
                .contains("Answer 1 is superseded by answer 2 already");
    }

    @Test
    void releasedAnswerIsTheSameAsTheRawFilesOfTheWholeTrial() throws IOException {
        String trial = trial();
        release(trial);
        Path out = Files.createDirectories(folder.resolve("out"));
        Files.write(
                out.resolve("answer.pdf"), visitor.bytes(trial + "/answer/1").body());
        unpack(visitor.bytes(trial + "/trial.zip").body(), out);
        CommandRun run = CommandRun.of(
                "verify",
                out.resolve("answer.pdf").toString(),
                "--trial",
                out.resolve("trial.yaml").toString());
        assertThat(run.status()).as(run.out()).isZero();
        assertThat(run.out()).contains("every figure agrees");
    }

    private static void unpack(byte[] content, Path out) throws IOException {
        try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(content))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                Path file = out.resolve(entry.getName());
                Files.createDirectories(file.getParent());
                Files.write(file, zip.readAllBytes());
            }
        }
    }

    @Test
    void answerWithALineStandsBesideThatOfTheTrial() throws IOException {
        String trial = trial();
        release(trial);
        String query = "?material=acoustic+felt&length=1200&tolerance=1.8&fast=50&acceleration=500&creep=50&creeps=100";
        assertThat(visitor.get(trial + "/answer" + query).body())
                .contains("What it says, with the line")
                .contains("name=\"length\" value=\"1200\"");
        String after = visitor.post(
                        trial + "/answer/release" + query,
                        "released_by",
                        "Ines Example",
                        "released_on",
                        "2026-03-02",
                        "form",
                        "html")
                .body();
        assertThat(after)
                .contains("Answer 2 stands")
                .contains("Answer 1 stands")
                .contains("With a line, acoustic felt.");
        assertThat(new String(visitor.bytes(trial + "/answer/2").body(), StandardCharsets.UTF_8))
                .contains("forecast.json")
                .contains("1200");
        assertThat(visitor.get(trial + "/answer/draft?supersedes=1&material=acoustic+felt")
                        .body())
                .contains("Answer 1 is in another language, or one of both is with a line");
    }

    @Test
    void whoReleasesHasSeenWhatIsReleased() {
        String trial = trial();
        String seen = found(SEEN, visitor.get(trial + "/answer").body());
        visitor.post(trial + "/readings", "reading", "600.9");
        HttpResponse<String> late = release(trial, "seen", seen);
        assertThat(late.statusCode()).isEqualTo(422);
        assertThat(late.body()).contains("reading 600.9. Nothing was released.");
        assertThat(visitor.get(trial + "/answer/1").statusCode()).isEqualTo(404);
    }

    @Test
    void sendingAReleaseTwiceReleasesOnce() {
        String trial = trial();
        release(trial, "token", "once");
        assertThat(release(trial, "token", "once").body())
                .contains("Answer 1 stands")
                .doesNotContain("Answer 2");
    }

    @Test
    void trialWithoutPassesHasNothingToAnswerWith() {
        String trial = visitor.newTrial();
        assertThat(visitor.get(trial + "/answer").statusCode()).isEqualTo(200);
        HttpResponse<String> refused = release(trial);
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body()).contains("There is no pass that counts");
    }
}
