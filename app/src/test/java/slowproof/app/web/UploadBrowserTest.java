package slowproof.app.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Mouse;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Taking recordings in with a real browser: the main way, its commonest mistakes, by keyboard, in both languages. */
class UploadBrowserTest extends BrowserPages {
    private static Path file(String name, String content) throws IOException {
        return Files.writeString(Files.createTempDirectory(folder, "logs").resolve(name), content);
    }

    private static Page open(String language) {
        return open(language, "recordings/new");
    }

    private static void send(Page page, Path... files) {
        page.setInputFiles("#logs", files);
        page.waitForURL(address -> address.matches(".*/recordings/[0-9a-f]{32}"));
    }

    private static void cut(Page page) {
        page.click("#reading button.work");
        page.waitForSelector("#keep");
        page.waitForFunction("() => document.querySelector('.trace figure').dataset.from !== undefined");
    }

    private static double shown(Page page, String end) {
        return Double.parseDouble(
                String.valueOf(page.evaluate("e => document.querySelector('.trace figure').dataset[e]", end)));
    }

    @ParameterizedTest
    @CsvSource({"en,0.05,0.15,0.02,does not conform", "de,'0,05','0,15','0,02',hält die Grenze nicht ein"})
    void fromLogToTrial(String language, String count, String limit, String uncertainty, String answer)
            throws IOException {
        Page page = open(language);
        send(page, file("run-07.csv", Recorded.plain()));
        assertThat(page.locator("table.columns tbody tr")).hasCount(4);
        page.fill("#count_mm", count);
        cut(page);
        assertThat(page.locator("table.passes tbody tr")).hasCount(4);
        page.fill("#f1_material", "felt");
        page.fill("#fact_limit_percent", limit);
        page.fill("#fact_reference_uncertainty", uncertainty);
        page.click("#keep button.work");
        page.waitForURL("**/trials/*");
        assertThat(page.locator("section.answer")).containsText("felt");
        assertThat(page.locator("body")).containsText(answer);
        assertThat(page.locator("#recordings-title")).isVisible();
        Chromium.close(page);
    }

    @Test
    void aWrongMappingIsMendedWithThePreviewBeside() throws IOException {
        Page page = open("en");
        send(page, file("bench.csv", Recorded.german()));
        // "Uhr" and "Schlitten" are no words that a heading of time and reference is known by
        assertThat(page.locator(".log .problems")).containsText("bench.csv");
        page.selectOption("#f1_c1", "time");
        page.selectOption("#f1_c2", "count");
        page.selectOption("#f1_c3", "reference");
        assertThat(page.locator(".log .problems")).hasCount(0);
        Locator second = page.locator("table.columns tbody tr >> nth=0").locator("td.cells >> nth=1");
        assertThat(second).containsText("0.01 s");
        page.selectOption("#f1_c1_unit", "s");
        assertThat(second).containsText("10 s");
        page.selectOption("#f1_c1_unit", "ms");
        assertThat(second).containsText("0.01 s");
        page.selectOption("#f1_c4", "count");
        assertThat(page.locator("#f1_c4-problem")).containsText("one column only");
        page.selectOption("#f1_c4", "");
        page.fill("#count_mm", "0.05");
        cut(page);
        assertThat(page.locator("table.passes tbody tr")).hasCount(4);
        Chromium.close(page);
    }

    @Test
    void aLogOfTheSensorAloneIsComparedWithWhatIsTyped() throws IOException {
        Page page = open("en");
        send(page, file("sensor.csv", Recorded.sensor()));
        assertThat(page.locator(".log .problems")).containsText("reference_mm");
        page.fill("#count_mm", "0.05");
        page.selectOption("#f1_part", "alone");
        assertThat(page.locator(".log .problems")).hasCount(0);
        // left empty at first: the passes found are listed, so that it is clear what to type
        page.click("#reading button.work");
        page.waitForURL("**/passes");
        assertThat(page.locator(".problems")).containsText("4 passes were found");
        page.goBack();
        page.fill("#f1_references", "600.2 599.9 600 600.1");
        cut(page);
        assertThat(page.locator("table.passes tbody tr")).hasCount(4);
        assertThat(page.locator("table.passes tbody tr >> nth=1")).containsText("\u2212599.90");
        Chromium.close(page);
    }

    @Test
    void whatIsTypedWhileThePreviewIsOnItsWayStays() throws IOException {
        Page page = open("en");
        send(page, file("run.csv", Recorded.plain()));
        page.locator("#f1_header_rows").pressSequentially("1");
        page.waitForTimeout(310);
        page.locator("#f1_header_rows").pressSequentially("0");
        page.waitForResponse(answer -> answer.request().method().equals("POST"), () -> {});
        assertThat(page.locator("#f1_header_rows")).hasValue("10");
        Chromium.close(page);
    }

    @Test
    void aLogWithAMistakeStopsBeforeTheCutAndSaysWhere() throws IOException {
        Page page = open("de");
        send(page, file("run.csv", Recorded.plain().replace("\n0.02,", "\n0.0x2,")));
        page.fill("#count_mm", "0,05");
        page.click("#reading button.work");
        page.waitForSelector("#problems");
        assertThat(page.title()).startsWith("Fehler: ");
        assertThat(page.textContent("#problems")).contains("run.csv, Zeile 4, Spalte 1");
        Chromium.close(page);
    }

    @Test
    void anEmptyFileIsRefusedOnThePageAndTheOthersStay() throws IOException {
        Page page = open("en");
        page.setInputFiles("#logs", new Path[] {file("empty.csv", ""), file("run.csv", Recorded.plain())});
        assertThat(page.locator("#sending li.problem")).containsText("empty.csv: the file is empty");
        assertThat(page.locator("#sending li:not(.problem)")).containsText("run.csv");
        // what went wrong is not swept away by going on
        page.waitForTimeout(300);
        assertThat(page.url()).endsWith("/recordings/new");
        Chromium.close(page);
    }

    @Test
    void droppedFilesAreSentToo() throws IOException {
        Page page = open("en");
        String log = Recorded.plain();
        page.evaluate(
                "log => { const data = new DataTransfer(); data.items.add(new File([log], 'dropped.csv'));"
                        + " document.getElementById('drop').dispatchEvent("
                        + "new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true })); }",
                log);
        page.waitForURL(address -> address.matches(".*/recordings/[0-9a-f]{32}"));
        assertThat(page.locator("#log-1")).containsText("dropped.csv");
        Chromium.close(page);
    }

    @Test
    void theRecordingIsLookedAtCloserByKeyboardButtonsAndDragging() throws IOException {
        Page page = open("en");
        send(page, file("run.csv", Recorded.plain()));
        page.fill("#count_mm", "0.05");
        cut(page);
        assertThat(shown(page, "from")).isEqualTo(0);
        assertThat(shown(page, "to")).isEqualTo(46);
        assertThat(page.textContent(".trace [role=status]")).contains("passes 1 to 4", " to 100.3 mm/s");
        page.focus(".trace figure");
        page.keyboard().press("+");
        page.waitForFunction("() => Number(document.querySelector('.trace figure').dataset.from) === 11.5");
        page.keyboard().press("ArrowRight");
        page.waitForFunction("() => Number(document.querySelector('.trace figure').dataset.from) === 23");
        page.keyboard().press("Home");
        page.waitForFunction("() => Number(document.querySelector('.trace figure').dataset.to) === 46");
        page.click("[data-zoom=in]");
        page.waitForFunction("() => Number(document.querySelector('.trace figure').dataset.to) === 34.5");
        page.click("table.passes .show >> nth=2");
        page.waitForFunction("() => document.querySelector('.trace [role=status]').textContent.includes('pass 3')");
        assertThat(shown(page, "from")).isBetween(28.0, 30.0);
        page.keyboard().press("0");
        page.waitForFunction("() => Number(document.querySelector('.trace figure').dataset.to) === 46");
        Locator over = page.locator(".trace .u-over");
        over.scrollIntoViewIfNeeded();
        var box = over.boundingBox();
        page.mouse().move(box.x + 0.25 * box.width, box.y + 0.5 * box.height);
        page.mouse().down();
        page.mouse().move(box.x + 0.5 * box.width, box.y + 0.5 * box.height, new Mouse.MoveOptions().setSteps(5));
        page.mouse().up();
        page.waitForFunction("() => Number(document.querySelector('.trace figure').dataset.to) < 24");
        assertThat(shown(page, "from")).isBetween(10.5, 12.5);
        assertThat(shown(page, "to")).isBetween(22.0, 24.0);
        Chromium.close(page);
    }

    @Test
    void theMainWayGoesByKeyboardAlone() throws IOException {
        Page page = open("en");
        send(page, file("run.csv", Recorded.plain()));
        tabTo(page, "#count_mm");
        page.keyboard().type("0.05");
        page.keyboard().press("Enter");
        page.waitForSelector("#keep");
        tabTo(page, "#f1_material");
        page.keyboard().type("felt");
        tabTo(page, "#keep button.work");
        page.keyboard().press("Enter");
        page.waitForURL("**/trials/*");
        Chromium.close(page);
    }

    private static void tabTo(Page page, String selector) {
        for (int i = 0; i < 90; i++) {
            if (Boolean.TRUE.equals(page.evaluate("s => document.activeElement.matches(s)", selector))) {
                return;
            }
            page.keyboard().press("Tab");
        }
        throw new AssertionError(selector + " cannot be reached with the tabulator key");
    }

    @ParameterizedTest
    @CsvSource({"LIGHT,1280,800,en", "DARK,820,1180,de"})
    void pagesAreAccessibleAndFitTheWindow(ColorScheme colours, int width, int height, String language)
            throws IOException {
        Page page = chromium.open(language, colours, width, height);
        page.navigate(server.url() + "recordings/new");
        check(page, "new");
        send(page, file("run.csv", Recorded.plain()), file("axis.csv", Recorded.axis()));
        page.selectOption("#f1_c4", "level");
        page.waitForSelector("#f1_threshold");
        check(page, "reading");
        page.click("#reading button.work");
        page.waitForSelector("#problems");
        check(page, "problems");
        page.selectOption("#f1_c4", "dropout");
        page.click(".log button.quiet >> nth=1");
        page.waitForFunction("() => document.querySelectorAll('section.log').length === 1");
        page.fill("#count_mm", language.equals("de") ? "0,05" : "0.05");
        cut(page);
        check(page, "passes");
        page.context().close();
    }

    private static void check(Page page, String what) {
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true; })");
        Axe.check(page, what);
        Object wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");
        assertThat(((Number) wide).intValue()).as(what).isLessThanOrEqualTo(0);
        Locator targets =
                page.locator("button:visible, a.button:visible, input:visible, select:visible, summary:visible");
        for (int i = 0; i < targets.count(); i++) {
            Locator target = targets.nth(i);
            if ("checkbox".equals(target.getAttribute("type"))) {
                continue;
            }
            assertThat(target.boundingBox().height)
                    .as("%s: %s", what, target.evaluate("e => e.outerHTML"))
                    .isGreaterThanOrEqualTo(43.9);
        }
    }
}
