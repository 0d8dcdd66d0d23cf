package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLEncoder;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class QuestionsPageTest {
    @TempDir
    static Path folder;

    private static Server server;
    private static Visitor visitor;
    private static String trial;

    @BeforeAll
    static void start() {
        server = Server.start(folder, 0);
        visitor = new Visitor(server.url());
        trial = felt(visitor);
        visitor.get("/trials.csv");
    }

    @AfterAll
    static void stop() {
        server.close();
    }

    /** A trial on felt: errors of about 0.2 mm at 100 mm/s and 2.5 mm at 25 mm/s on 600 mm; returns its path. */
    static String felt(Visitor visitor) {
        String path = visitor.newTrial();
        visitor.post(
                path + "/facts",
                "fact_title",
                "Felt at the cutter",
                "fact_reference_uncertainty",
                "0.02",
                "fact_limit_percent",
                "0.15");
        for (String[] series : new String[][] {
            {"100", "600.2", "0.1", "600.3", "0.1", "600.3", "0.2"},
            {"25", "602.4", "0.2", "602.5", "0.1", "602.6", "0.2"}
        }) {
            visitor.post(
                    path + "/series", "speed", series[0], "from", "0", "to", "600", "start", "0.0", "surface", "felt");
            for (int i = 1; i < series.length; i++) {
                visitor.post(path + "/readings", "reading", series[i]);
            }
        }
        return path;
    }

    /** Asks about 600 mm with 1 mm from a slowest speed on; returns the path of the question. */
    private static String ask(String material, String slowest, String... further) {
        String[] fields = new String[8 + further.length];
        System.arraycopy(
                new String[] {"material", material, "slowest", slowest, "piece", "600", "tolerance", "1"},
                0,
                fields,
                0,
                8);
        System.arraycopy(further, 0, fields, 8, further.length);
        HttpResponse<String> answer = visitor.post("/questions", fields);
        assertThat(answer.statusCode()).isEqualTo(200);
        return answer.uri().getPath();
    }

    private static String get(String path) {
        HttpResponse<String> answer = visitor.get(path);
        assertThat(answer.statusCode()).isEqualTo(200);
        return answer.body();
    }

    @Test
    void coveredQuestionIsAnsweredFromTheTrial() {
        assertThat(get(ask("Felt", "100")))
                .contains("Yes, by our trial “Felt at the cutter”")
                .contains("Ja, nach unserem Versuch „Felt at the cutter“")
                .contains("href=\"" + trial + "\"")
                .doesNotContain("Not covered");
    }

    @Test
    void failingSpeedIsNamedAndTheNextSpeedProposed() {
        assertThat(get(ask("felt", "25", "fastest", "100")))
                .contains("No, by our trial")
                .contains("50 mm/s, 600 mm out and back, 5 cycles: between a speed that fails and one that holds");
    }

    @Test
    void slowerThanTestedOrAnotherSurfaceIsNotCovered() {
        assertThat(get(ask("felt", "10")))
                .contains("We have not tested that.")
                .contains("10 mm/s was not tested; the slowest speed tested is 25 mm/s.");
        assertThat(get(ask("papier", "100"))).contains("The surface tested was felt (names alike to 0 %)");
    }

    @Test
    void evidenceAppearsWhileAQuestionIsTyped() {
        assertThat(get("/questions?material=felt&slowest=100&piece=600&tolerance=1"))
                .contains("Yes, by our trial “Felt at the cutter”");
        assertThat(get("/questions?material=felt&slowest=100")).contains("are enough to look for evidence");
        assertThat(get("/questions?slowest=100&piece=600&tolerance=1"))
                .contains("are enough to look for evidence")
                .doesNotContain("by our trial");
        assertThat(visitor.post("/questions", "slowest", "100", "piece", "600", "tolerance", "1")
                        .body())
                .contains("No surface is named yet");
        assertThat(visitor.get("/questions?slowest=fast").body()).contains("\"fast\" is not a number");
    }

    @Test
    void questionWithoutItsNumbersComesBackWithTheInput() {
        HttpResponse<String> answer = visitor.post(
                "/questions", "material", "felt", "slowest", "100", "fastest", "50", "piece", "", "tolerance", "tight");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body())
                .contains("<title>Error: Questions")
                .contains("value=\"felt\"")
                .contains("id=\"piece-problem\"")
                .contains("\"tight\" is not a number")
                .contains("\"50\" is below the other end of the range");
    }

    private static String seen(String page) {
        Matcher seen = Pattern.compile("name=\"seen\" value=\"([0-9]+)\"").matcher(page);
        assertThat(seen.find()).isTrue();
        return seen.group(1);
    }

    @Test
    void theSecondOfTwoWhoEditIsToldAndKeepsWhatHeTyped() {
        String path = ask("felt", "100", "asked_by", "press 4");
        String seen = seen(get(path));
        String[] first = {
            "material",
            "felt",
            "slowest",
            "80",
            "piece",
            "600",
            "tolerance",
            "1",
            "text",
            "By hand\r\non Fridays.",
            "seen",
            seen
        };
        assertThat(visitor.post(path, first).statusCode()).isEqualTo(200);
        String[] second = {
            "material",
            "felt",
            "slowest",
            "100",
            "piece",
            "600",
            "tolerance",
            "2.5",
            "asked_by",
            "press 4",
            "seen",
            seen
        };
        HttpResponse<String> refused = visitor.post(path, second);
        assertThat(refused.statusCode()).isEqualTo(409);
        assertThat(refused.body())
                .contains("This question was changed meanwhile")
                .contains(
                        "slowest speed (mm/s): 80; name or plant emptied; Anything else that was said: By hand / on Fridays.<")
                .contains("value=\"2.5\"");
        assertThat(get(path)).as("nothing of the second was recorded").doesNotContain("value=\"2.5\"");
        second[11] = seen(refused.body());
        assertThat(visitor.post(path, second).statusCode()).isEqualTo(200);
        assertThat(get(path)).contains("value=\"2.5\"");
    }

    @Test
    void anAnswerToAQuestionThatWasChangedIsNotKeptAndNotLost() {
        String path = ask("felt", "100");
        String seen = seen(get(path));
        visitor.post(path + "/sent", "seen", seen);
        HttpResponse<String> refused =
                visitor.post(path + "/answer", "en", "My own words", "de", "Meine Worte", "seen", seen);
        assertThat(refused.statusCode()).isEqualTo(409);
        assertThat(refused.body())
                .contains("This question was changed meanwhile")
                .contains(": sent.")
                .contains("My own words")
                .contains("Meine Worte");
        assertThat(get(path)).doesNotContain("My own words");
        assertThat(visitor.post(path + "/reopen", "seen", seen).statusCode()).isEqualTo(409);
        assertThat(visitor.post(
                                path + "/answer",
                                "en",
                                "My own words",
                                "de",
                                "Meine Worte",
                                "seen",
                                seen(refused.body()))
                        .statusCode())
                .isEqualTo(200);
        assertThat(get(path)).contains("My own words");
    }

    @Test
    void aReplyThatNobodyTouchedIsThatForTheQuestionAsItStands() {
        String path = ask("felt", "100");
        String page = get(path);
        String seen = seen(page);
        String own = between(page, "name=\"en\" rows=\"9\">", "</textarea>").replace("&gt;", ">");
        visitor.post(path, "material", "felt", "slowest", "25", "piece", "600", "tolerance", "1", "seen", seen);
        HttpResponse<String> refused = visitor.post(path + "/answer", "en", own, "de", "Meine\r\nWorte", "seen", seen);
        assertThat(refused.statusCode()).isEqualTo(409);
        assertThat(own).contains("Yes, by our trial");
        assertThat(refused.body())
                .contains("<title>Error: Question")
                .contains("No, by our trial")
                .doesNotContain("Yes, by our trial")
                .contains("Meine\nWorte");
    }

    private static String between(String text, String before, String behind) {
        int from = text.indexOf(before) + before.length();
        return text.substring(from, text.indexOf(behind, from));
    }

    @Test
    void whatTwoDoAlikeIsDoneOnceAndATrialIsMadeOfWhatWasSeen() {
        String path = ask("felt", "100");
        String seen = seen(get(path));
        assertThat(visitor.post(path + "/sent", "seen", seen, "token", "x").statusCode())
                .isEqualTo(200);
        assertThat(visitor.post(path + "/sent", "seen", seen, "token", "y").statusCode())
                .as("both sent it")
                .isEqualTo(200);
        assertThat(get(path).split("> sent", -1)).as("recorded once").hasSize(2);
        visitor.post(
                path, "material", "film", "slowest", "100", "piece", "600", "tolerance", "2", "seen", seen(get(path)));
        HttpResponse<String> refused = visitor.post(path + "/trial", "seen", seen);
        assertThat(refused.statusCode()).isEqualTo(409);
        assertThat(refused.body())
                .contains("surface (name): film")
                .contains("Look at what changed, then do it again")
                .doesNotContain("/bench");
        assertThat(visitor.post(path + "/trial", "seen", seen(refused.body()))
                        .uri()
                        .getPath())
                .endsWith("/bench");
    }

    @Test
    void mistakesOnAQuestionThatWasChangedComeWithWhatWasChanged() {
        String path = ask("felt", "100");
        String seen = seen(get(path));
        visitor.post(path + "/sent", "seen", seen);
        HttpResponse<String> answer = visitor.post(
                path, "material", "felt", "slowest", "slow", "piece", "600", "tolerance", "1", "seen", seen);
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body()).contains("\"slow\" is not a number").contains("This question was changed meanwhile");
    }

    @Test
    void answerIsKeptAndSendingClosesTheQuestion() {
        String path = ask("felt", "100", "asked_by", "cutter 7", "due", "2026-03-05");
        assertThat(get("/questions?q=cutter+7")).contains(">felt, cutter 7</a>").contains(">overdue</span>");
        visitor.post(path + "/answer", "en", "Yes <b>indeed</b>", "de", "Ja", "token", "a");
        visitor.post(path + "/answer", "en", "Yes <b>indeed</b>", "de", "Ja", "token", "a");
        String page = get(path);
        assertThat(page).contains("Yes &lt;b&gt;indeed&lt;/b&gt;").contains("An answer was kept on");
        assertThat(page.split("Yes &lt;b&gt;", -1)).as("once in the record").hasSize(2);
        visitor.post(path + "/sent");
        assertThat(get("/questions?q=cutter+7")).contains("answered").doesNotContain(">overdue</span>");
        visitor.post(path + "/reopen");
        assertThat(get(path)).contains("opened again");
    }

    @Test
    void trialIsMadeWithWhatTheQuestionTells() {
        String path = ask("glass fabric", "20", "gentlest", "250", "text", "They stop often.");
        HttpResponse<String> bench = visitor.post(path + "/trial");
        assertThat(bench.uri().getPath()).endsWith("/bench");
        String made = bench.uri().getPath().replace("/bench", "");
        assertThat(get(made))
                .contains("glass fabric")
                .contains("value=\"0.166667\"")
                .contains("value=\"250\"")
                .contains("They stop often.");
        assertThat(get(path)).contains("href=\"" + made + "\"");
    }

    @Test
    void correctionReplacesWhatWasAskedAndTheRecordKeepsBoth() {
        String path = ask("felt", "100");
        visitor.post(path, "material", "felt", "slowest", "25", "piece", "600", "tolerance", "1");
        assertThat(get(path)).contains("No, by our trial").contains("id=\"slowest\" name=\"slowest\" value=\"25\"");
        HttpResponse<String> wrong =
                visitor.post(path, "material", "felt", "slowest", "x", "piece", "600", "tolerance", "1");
        assertThat(wrong.statusCode()).isEqualTo(422);
        assertThat(wrong.body()).contains("value=\"x\"");
    }

    @Test
    void unknownQuestionIsSaid() {
        assertThat(visitor.get("/questions/999").statusCode()).isEqualTo(404);
        assertThat(visitor.get("/questions/" + URLEncoder.encode("../x", StandardCharsets.UTF_8))
                        .statusCode())
                .isIn(400, 404);
        assertThat(visitor.post("/questions/999/sent").statusCode()).isEqualTo(404);
    }

    @Test
    void aTrialAskedForTwiceByOneFormIsMadeOnce() {
        String path = ask("clear film", "20");
        String made = visitor.post(path + "/trial", "token", "one form").uri().getPath();
        assertThat(made).startsWith("/trials/");
        assertThat(visitor.post(path + "/trial", "token", "one form").uri().getPath())
                .isEqualTo(path);
        // its title bears the number of the question
        String number = path.substring("/questions/".length());
        assertThat(visitor.get("/trials.csv?q=" + number + "+clear+film").body().lines())
                .hasSize(2);
    }
}
