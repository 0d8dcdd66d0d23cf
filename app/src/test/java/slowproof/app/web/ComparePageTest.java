package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ComparePageTest {
    @TempDir
    static Path folder;

    private static Server server;
    private static Visitor visitor;
    private static String first;
    private static String second;

    @BeforeAll
    static void start() {
        server = Server.start(folder, 0);
        visitor = new Visitor(server.url());
        first = id(trial("One", "600.2", "0.1", "600.3", "0.1", "600.3", "0.2"));
        second = id(trial("=Two", "601.2", "0.1", "601.3", "0.1", "601.3", "0.2"));
        visitor.get("/trials.csv");
    }

    @AfterAll
    static void stop() {
        server.close();
    }

    private static String id(String path) {
        return path.substring("/trials/".length());
    }

    private static String trial(String title, String... readings) {
        String path = visitor.newTrial();
        visitor.post(
                path + "/facts",
                "fact_title",
                title,
                "fact_reference_name",
                "carriage scale",
                "fact_reference_uncertainty",
                "0.02",
                "fact_resolution",
                "0.1");
        visitor.post(path + "/series", "speed", "100", "from", "0", "to", "600", "start", "0.0", "surface", "felt");
        for (String reading : readings) {
            visitor.post(path + "/readings", "reading", reading, "confirmed", reading);
        }
        return path;
    }

    private static String get(String path) {
        HttpResponse<String> answer = visitor.get(path);
        assertThat(answer.statusCode()).isEqualTo(200);
        return answer.body();
    }

    private static String both() {
        return "line=" + first + ".0.&line=" + second + ".0.";
    }

    @Test
    void differenceIsToldWithItsIntervalAndTheSharedReference() {
        String page = get("/compare?" + both());
        assertThat(page)
                .contains("“=Two” differs from “One” at 1 of 1 tested common speed.")
                .contains("same reference (carriage scale): its error is in both alike and cancels")
                .contains("data-chart=")
                // forward errors one millimetre apart on 600, out; back 1.0 mm the other way round: means by hand
                .contains("<strong>+0.167</strong>");
    }

    @Test
    void orderAndRemovalStandInTheAddress() {
        assertThat(get("/compare?" + both()))
                .contains("href=\"/compare?line=" + second + ".0.&amp;line=" + first + ".0.\"")
                .contains("href=\"/compare?line=" + first + ".0.\"");
    }

    @Test
    void resultsAreOfferedUntilFourAreChosen() {
        assertThat(get("/compare"))
                .contains("Choose two to four results below")
                .contains("href=\"/compare?line=" + first + ".0.\"");
        assertThat(get("/compare?trial=" + first + "&q=two"))
                .contains("line=" + second + ".0.")
                .doesNotContain("data-chart=");
    }

    @Test
    void whatIsNotThereIsSaidAndTheRestShown() {
        HttpResponse<String> answer =
                visitor.get("/compare?line=" + first + ".7.&line=" + first + ".0.&trial=none1234");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body())
                .contains("A result that was asked for is not in this archive")
                .contains("One");
    }

    @Test
    void tableOfValuesHoldsFullFiguresAndNoFormula() {
        List<String> lines =
                visitor.get("/compare.csv?" + both()).body().lines().toList();
        assertThat(lines).hasSize(2);
        assertThat(lines.get(0)).startsWith("first,second,speed (mm/s)");
        assertThat(lines.get(1))
                .startsWith("One,'=Two,100.0,0.0277")
                .contains(",0.16666666")
                .contains(",differs,");
    }

    @Test
    void typedNamesAreEscaped() {
        assertThat(get("/compare?q=%22%3E%3Cscript%3Ey()").replace("&#34;", "\""))
                .doesNotContain("<script>y()");
    }
}
