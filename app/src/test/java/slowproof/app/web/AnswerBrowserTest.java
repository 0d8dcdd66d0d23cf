package slowproof.app.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The page of the written answer in a real browser. */
class AnswerBrowserTest extends BrowserPages {
    /** Every element that ends to the right of the window. */
    private static final String BEYOND = "[...document.querySelectorAll('main *')]"
            + ".filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)"
            + ".map(e => e.outerHTML.slice(0, 80)).join('\\n')";

    private static final int PATIENCE_MS = 30_000;

    /** An invented trial at one speed; returns its path. */
    private static String trial() {
        Visitor visitor = new Visitor(server.url());
        String path = visitor.newTrial();
        visitor.post(
                path + "/facts",
                "fact_title",
                "Felt at the cutter",
                "fact_limit_percent",
                "0.15",
                "fact_reference_uncertainty",
                "0.02");
        visitor.post(path + "/series", "speed", "100", "from", "0", "to", "600", "surface", "felt");
        for (String reading : List.of("0.0", "600.2", "0.1", "600.3", "0.1")) {
            visitor.post(path + "/readings", "reading", reading);
        }
        return path.substring(1);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "en|LIGHT|1280|Written answer, draft and release|A release needs the name|Answer 1 stands|%PDF",
                "de|DARK|400|Schriftliche Antwort, Entwurf und Freigabe|Eine Freigabe braucht den Namen|Antwort 1 gilt|%PDF"
            })
    void fromTheTrialToADraftARefusalAndARelease(
            String language, ColorScheme colours, int width, String button, String refusal, String stands, String begin)
            throws IOException {
        Page page = chromium.open(language, colours, width, 800);
        page.setDefaultTimeout(PATIENCE_MS);
        page.navigate(server.url() + trial());
        page.click("text=" + button);
        assertThat(page.locator("#draft_written_in")).hasValue(language);
        Axe.check(page, "written answer");
        Download draft = page.waitForDownload(() -> page.click("form[action$='/draft'] button"));
        assertThat(Files.readString(draft.path(), StandardCharsets.ISO_8859_1)).startsWith(begin);
        page.click("#release button.work");
        assertThat(page.locator("#released_by-problem")).containsText(refusal);
        Axe.check(page, "refused release");
        page.click(".problems a");
        page.keyboard().type("Ines Example");
        page.keyboard().press("Enter");
        assertThat(page.locator(".released li")).containsText(stands);
        assertThat(page.locator(".released li")).containsText("Ines Example");
        Axe.check(page, "released answer");
        Download released = page.waitForDownload(() -> page.click(".released li a.button"));
        assertThat(released.suggestedFilename()).isEqualTo("felt-at-the-cutter-answer-1.pdf");
        assertThat(page.evaluate(BEYOND)).as("what stands out of the window").isEqualTo("");
        Chromium.close(page);
    }
}
