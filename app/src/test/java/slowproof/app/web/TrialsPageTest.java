package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TrialsPageTest {
    @TempDir
    static Path folder;

    private static Server server;
    private static Visitor visitor;

    @BeforeAll
    static void start() {
        server = Server.start(folder, 0);
        visitor = new Visitor(server.url());
        trial("=1+1 felt", "acoustic felt", "100", "600.2", "0.1", "600.3", "0.1", "600.3", "0.2");
        trial("Film", "clear film", "50", "600.2");
        for (int i = 0; i < TrialsPage.A_PAGE; i++) {
            visitor.newTrial();
        }
        // the table of values waits for what the page shows as soon as it is known
        visitor.get("/trials.csv");
    }

    @AfterAll
    static void stop() {
        server.close();
    }

    private static void trial(String title, String surface, String speed, String... readings) {
        String trial = visitor.newTrial();
        visitor.post(
                trial + "/facts",
                "fact_title",
                title,
                "fact_limit_percent",
                "0.15",
                "fact_reference_uncertainty",
                "0.02",
                "fact_sensor_name",
                "bench unit");
        visitor.post(trial + "/series", "speed", speed, "from", "0", "to", "600", "start", "0.0", "surface", surface);
        for (String reading : readings) {
            visitor.post(trial + "/readings", "reading", reading);
        }
    }

    private static String get(String path) {
        HttpResponse<String> answer = visitor.get(path);
        assertThat(answer.statusCode()).isEqualTo(200);
        return answer.body();
    }

    @Test
    void listTellsSurfaceSpeedsAndWhereItHolds() {
        assertThat(get("/trials?material=felt").replaceAll("\\s+", " "))
                .contains("<td>acoustic felt</td><td class=\"n\">100</td>")
                .contains("holds</td><td class=\"n\">100</td>")
                .contains("bench unit")
                .doesNotContain("clear film");
    }

    @Test
    void whatWaitsComesFirstAndIsCounted() {
        String page = get("/trials");
        assertThat(page).contains("1 trial stops half way").contains(TrialsPage.A_PAGE + " trials without a reading");
        assertThat(page.indexOf("half way: come back")).isLessThan(page.indexOf("nothing read yet"));
    }

    @Test
    void pagesFollowEachOtherAndKeepTheFilter() {
        assertThat(get("/trials?order=title"))
                .contains("1 to 40 of 42 trials")
                .contains("href=\"/trials?order=title&amp;from=40\"");
        assertThat(get("/trials?order=title&from=40"))
                .contains("41 to 42 of 42 trials")
                .contains("href=\"/trials?order=title\"");
        assertThat(get("/trials?material=felt&language=de")).contains("1 bis 1 von 1 Versuch");
        visitor.get("/trials?language=en");
    }

    @Test
    void changeOfLanguageKeepsTheFilter() {
        assertThat(get("/trials?q=felt&order=title"))
                .contains("href=\"/trials?q=felt&amp;order=title&amp;language=de\"");
    }

    @Test
    void fieldThatIsNotUnderstoodComesBackWithAWord() {
        HttpResponse<String> answer = visitor.get("/trials?slowest=quick&since=yesterday");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body())
                .contains("<title>Error: Trials")
                .contains("\"quick\" is not a number")
                .contains("\"yesterday\" is not a date")
                .contains("value=\"quick\"");
    }

    @Test
    void tableOfValuesHoldsAllPagesAndNoFormula() {
        List<String> lines =
                visitor.get("/trials.csv?order=title").body().lines().toList();
        assertThat(lines).hasSize(43);
        assertThat(lines.get(0)).startsWith("trial,title,started (UTC)").endsWith("by the curve (mm/s)");
        assertThat(lines)
                .anySatisfy(line -> assertThat(line)
                        .contains(",'=1+1 felt,")
                        .endsWith("bench unit,6,nothing,acoustic felt,holds,100.0,100.0,,100.0,"));
    }

    @Test
    void daysNarrowTheList() {
        assertThat(get("/trials?q=felt&since=2020-02-29&until=2999-12-31")).contains("=1+1 felt");
        assertThat(get("/trials?q=felt&until=2020-02-29")).doesNotContain("=1+1 felt");
        assertThat(get("/trials?q=felt&since=2999-12-31")).doesNotContain("=1+1 felt");
    }
}
