package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SamplesPageTest {
    private static final Pattern SEEN = Pattern.compile("name=\"seen\" value=\"([0-9]+)\"");

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

    private static String day(int daysFromNow) {
        return LocalDate.now().plusDays(daysFromNow).toString();
    }

    /** Notes a sample that arrived ten days ago; returns its path. */
    private static String note(String material, String due, String... further) {
        String[] fields = new String[8 + further.length];
        System.arraycopy(
                new String[] {"sender", "Plant X", "material", material, "received", day(-10), "due", due},
                0,
                fields,
                0,
                8);
        System.arraycopy(further, 0, fields, 8, further.length);
        HttpResponse<String> answer = visitor.post("/samples", fields);
        assertThat(answer.statusCode()).isEqualTo(200);
        return answer.uri().getPath();
    }

    private static String get(String path) {
        HttpResponse<String> answer = visitor.get(path);
        assertThat(answer.statusCode()).isEqualTo(200);
        return answer.body();
    }

    private static String seen(String path) {
        Matcher seen = SEEN.matcher(get(path));
        assertThat(seen.find()).isTrue();
        return seen.group(1);
    }

    @Test
    void whatWasTypedStandsOnThePageInTheListAndOnTheLabel() {
        String path = note(
                "felt <thick>", day(20), "batch", "B-77", "side", "grey up", "grain", "along", "storage", "shelf 9");
        assertThat(get(path))
                .contains("value=\"felt &lt;thick")
                .contains("value=\"B-77\"")
                .doesNotContain("is still here");
        assertThat(get("/samples?q=shelf+9")).contains("B-77").contains("shelf 9");
        String label = get(path + "/label");
        assertThat(label)
                .contains("S-000" + path.substring("/samples/".length()))
                .contains("felt &lt;thick")
                .contains("grey up")
                .contains("shelf 9")
                .contains("label.css")
                .doesNotContain("pages.css");
    }

    @Test
    void overdueIsSaidUntilItWentBackAndTakingThatBackSaysItAgain() {
        String path = note("overdue film", day(-2));
        assertThat(get(path)).contains("It should have gone back by");
        assertThat(get("/samples?state=overdue")).contains("overdue film");
        for (String page : new String[] {"/", "/trials"}) {
            if (page.equals("/trials")) {
                visitor.newTrial();
            }
            assertThat(get(page)).contains("Sample overdue since").contains("overdue film, Plant X");
        }
        visitor.post(path + "/returned", "day", day(0), "token", "r", "seen", "1");
        assertThat(get(path)).contains("went back on").doesNotContain("It should have gone back by");
        assertThat(get("/")).doesNotContain("overdue film");
        assertThat(get("/samples?state=done")).contains("overdue film");
        visitor.post(path + "/kept", "token", "k", "seen", "2");
        assertThat(get(path))
                .contains("It should have gone back by")
                .as("the record keeps both")
                .contains("it is here after all");
        assertThat(visitor.post(path + "/returned", "day", "soon").body()).contains("id=\"day-problem\"");
    }

    @Test
    void dueTodayIsNotOverdue() {
        note("due today felt", day(0));
        assertThat(get("/")).contains("Sample to go back by").contains("due today felt");
        assertThat(get("/samples?state=overdue&q=due+today")).doesNotContain("due today felt, Plant X");
    }

    @Test
    void mistakesComeBackWithTheInput() {
        HttpResponse<String> answer =
                visitor.post("/samples", "material", "", "batch", "B-1", "received", day(0), "due", day(-1));
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body())
                .contains("<title>Error: Samples")
                .contains("value=\"B-1\"")
                .contains("id=\"sender-problem\"")
                .contains("id=\"material-problem\"")
                .contains("This day lies before it arrived");
        assertThat(visitor.post("/samples", "sender", "x", "material", "y", "received", "31.02.")
                        .body())
                .contains("id=\"received-problem\"");
        assertThat(visitor.get("/samples/999").statusCode()).isEqualTo(404);
        assertThat(visitor.post("/samples/999/kept").statusCode()).isEqualTo(404);
    }

    @Test
    void theSecondOfTwoWhoEditIsToldAndKeepsWhatHeTyped() {
        String path = note("shared felt", day(9), "storage", "shelf 1");
        String seen = seen(path);
        String[] first = {"sender", "Plant X", "material", "shared felt", "storage", "shelf 2", "seen", seen};
        assertThat(visitor.post(path, first).statusCode()).isEqualTo(200);
        String[] second = {"sender", "Plant X", "material", "shared felt", "batch", "B-2", "seen", seen};
        HttpResponse<String> answer = visitor.post(path, second);
        assertThat(answer.statusCode()).isEqualTo(409);
        assertThat(answer.body())
                .contains("This sample was changed meanwhile")
                .contains("shelf 2")
                .contains("value=\"B-2\"");
        assertThat(get(path)).as("nothing of the second was recorded").doesNotContain("value=\"B-2\"");
        Matcher now = SEEN.matcher(answer.body());
        assertThat(now.find()).isTrue();
        second[7] = now.group(1);
        assertThat(visitor.post(path, second).statusCode()).isEqualTo(200);
        assertThat(get(path)).contains("value=\"B-2\"");
    }

    @Test
    void trialsAreLinkedByWordsOrAddressAndUnlinked() {
        String trial = QuestionsPageTest.felt(visitor);
        String path = note("linked felt", day(9));
        assertThat(visitor.post(path + "/linked", "trial", "nothing-like-this").body())
                .contains("No trial has all of the words");
        visitor.post(path + "/linked", "trial", server.url() + trial.substring(1) + "/bench");
        assertThat(get(path)).contains("href=\"" + trial + "\"").contains("Felt at the cutter");
        assertThat(get(trial)).contains("href=\"" + path + "\"");
        visitor.post(path + "/unlinked", "trial", trial.substring("/trials/".length()));
        assertThat(get(trial)).doesNotContain("href=\"" + path + "\"");
    }
}
