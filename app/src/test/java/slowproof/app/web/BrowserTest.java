package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.assertions.LocatorAssertions;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.WaitForSelectorState;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The pages in a real browser: the way of each page that matters most, and its commonest mistake. */
class BrowserTest extends BrowserPages {
    private static final int MOST_TABS = 120;

    /** A trial with readings that hold at 100 mm/s and fail at 25 mm/s; returns its path. */
    private static String trial() {
        Visitor visitor = new Visitor(server.url());
        String trial = visitor.newTrial();
        visitor.post(
                trial + "/facts",
                "fact_limit_percent",
                "0.15",
                "fact_reference_uncertainty",
                "0.02",
                "fact_title",
                "Felt at the cutter");
        for (String[] series : new String[][] {
            {"100", "600.2", "0.1", "600.3", "0.1", "600.3", "0.2"},
            {"25", "602.4", "0.2", "602.5", "0.1", "602.6", "0.2"}
        }) {
            visitor.post(
                    trial + "/series", "speed", series[0], "from", "0", "to", "600", "start", "0.0", "surface", "felt");
            for (int i = 1; i < series.length; i++) {
                assertThat(visitor.post(trial + "/readings", "reading", series[i])
                                .statusCode())
                        .isEqualTo(200);
            }
        }
        return trial;
    }

    private static void read(Page page, String text) {
        int before = page.locator("table.rows tbody tr").count();
        page.fill("#reading", text);
        page.keyboard().press("Enter");
        page.waitForFunction("n => document.querySelectorAll('table.rows tbody tr').length > n", before);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {"en|600.6|0.3|+0.6 mm|screening only", "de|600,6|0,3|+0,6 mm|nur Vorprüfung"})
    void firstFigureAppearsWhileTyping(String language, String to, String back, String error, String verdict) {
        Page page = open(language, "");
        page.fill("#moved", "600");
        page.fill("#speed", "50");
        page.fill("#went_from", "0");
        page.fill("#went_to", to);
        assertThatLocator(page.locator("#answer .value").first()).hasText(error);
        page.fill("#back", back);
        page.waitForSelector("#answer .figure.second");
        assertThatLocator(page.locator("#answer")).containsText(verdict);
        assertThatLocator(page.locator(".ruler svg")).isVisible();
        page.reload();
        assertThat(page.inputValue("#went_to")).isEqualTo(to);
        Chromium.close(page);
    }

    @ParameterizedTest
    @CsvSource({"en,Error: First figure", "de,Fehler: Erste Zahl"})
    void firstFigureSaysWhatIsWrongBesideTheField(String language, String title) {
        Page page = open(language, "");
        page.fill("#moved", "six");
        page.click("button.work");
        page.waitForSelector(".problems");
        assertThat(page.title()).startsWith(title);
        assertThat(page.inputValue("#moved")).isEqualTo("six");
        assertThat(page.textContent("#moved-problem")).isEqualTo(page.textContent(".problems a >> nth=0"));
        assertThat(focused(page)).isEqualTo("moved");
        Chromium.close(page);
    }

    /** Looks until what is said of the locator holds. */
    private static LocatorAssertions assertThatLocator(Locator locator) {
        return PlaywrightAssertions.assertThat(locator);
    }

    private static Object focused(Page page) {
        return page.evaluate("document.activeElement.id");
    }

    /** Moves on by the tabulator key alone until an element that matches has the focus. */
    private static void tabTo(Page page, String selector) {
        for (int i = 0; i < MOST_TABS; i++) {
            Object there = page.evaluate("s => document.activeElement.matches(s)", selector);
            if (Boolean.TRUE.equals(there)) {
                return;
            }
            page.keyboard().press("Tab");
        }
        throw new AssertionError(selector + " cannot be reached with the tabulator key");
    }

    private static void enter(Page page, String selector, String text) {
        tabTo(page, selector);
        page.keyboard().press("Control+a");
        page.keyboard().type(text);
    }

    @Test
    void benchSheetFromStartToDecisionByKeyboardAlone() {
        Page page = open("en", "trials");
        tabTo(page, "form[action='/trials'] button");
        page.keyboard().press("Enter");
        page.waitForURL("**/bench");
        assertThat(focused(page)).isEqualTo("speed");
        page.keyboard().type("50");
        enter(page, "#from", "0");
        enter(page, "#to", "600");
        enter(page, "#start", "0.0");
        enter(page, "#surface", "felt");
        page.keyboard().press("Enter");
        page.waitForSelector("#reading");
        for (String reading : List.of("600.2", "0.1", "600.3", "0.1", "600.2", "0.0")) {
            int before = page.locator("table.rows tbody tr").count();
            tabTo(page, "#reading");
            page.keyboard().type(reading);
            page.keyboard().press("Enter");
            page.waitForFunction("n => document.querySelectorAll('table.rows tbody tr').length > n", before);
            page.waitForFunction(
                    "() => document.activeElement.id === 'reading' && document.activeElement.value === ''");
        }
        tabTo(page, ".missing a");
        page.keyboard().press("Enter");
        page.waitForURL("**#fact_limit_percent");
        enter(page, "#fact_limit_percent", "0.15");
        enter(page, "#fact_reference_uncertainty", "0.02");
        page.keyboard().press("Enter");
        page.waitForSelector(".answer .verdict.good");
        assertThat(page.textContent("section.answer")).contains("conforms");
        Chromium.close(page);
    }

    @Test
    void benchSheetShowsTheErrorLargeEnoughForThreeMetres() {
        Page page = open("en", trial().substring(1) + "/bench");
        double height = ((Number)
                        page.evaluate("parseFloat(getComputedStyle(document.querySelector('.pass .value')).fontSize)"))
                .doubleValue();
        // digits are about 0.65 of the type size; a two hundredth of the distance reads well: 15 mm are 57 CSS px
        assertThat(0.65 * height).isGreaterThanOrEqualTo(57);
        Chromium.close(page);
    }

    @Test
    void slipIsAskedAboutAndCanBeKept() {
        Page page = open("en", trial().substring(1) + "/bench");
        page.fill("#reading", "6026");
        page.keyboard().press("Enter");
        page.waitForSelector("#question");
        assertThat(page.inputValue("#reading")).isEqualTo("6026");
        page.waitForResponse("**/readings", () -> page.keyboard().press("Enter"));
        assertThatLocator(page.locator("#question")).isVisible();
        assertThat(page.locator("table.rows tbody tr").count()).isEqualTo(7);
        page.click("#question button");
        page.waitForSelector("#question", new Page.WaitForSelectorOptions().setState(WaitForSelectorState.DETACHED));
        assertThat(page.textContent("table.rows tbody tr >> nth=0")).contains("6026");
        Chromium.close(page);
    }

    @Test
    void benchMistakeComesBackWithTheInput() {
        Page page = open("en", trial().substring(1) + "/bench");
        page.fill("#reading", "6O2.5");
        page.keyboard().press("Enter");
        page.waitForSelector(".problems");
        assertThat(page.title()).startsWith("Error: Bench sheet");
        assertThat(page.inputValue("#reading")).isEqualTo("6O2.5");
        assertThat(focused(page)).isEqualTo("reading");
        Chromium.close(page);
    }

    @Test
    void keystrokesOutliveAReload() {
        Page page = open("en", trial().substring(1) + "/bench");
        page.locator("#reading").pressSequentially("602.");
        page.waitForFunction("() => document.querySelector('.entry [data-kept]').textContent === 'kept'");
        page.reload();
        assertThat(page.inputValue("#reading")).isEqualTo("602.");
        Chromium.close(page);
    }

    /** Types readings one after the other without looking at the page. */
    private static void type(Page page, String... readings) {
        for (String reading : readings) {
            page.keyboard().type(reading);
            page.keyboard().press("Enter");
        }
    }

    private static void hasReadings(Page page, String... latestFirst) {
        assertThatLocator(page.locator("table.rows tbody td:nth-child(3)")).hasText(latestFirst);
    }

    @Test
    void readingsTypedFasterThanTheServerAnswersAllArrive() {
        Page page = open("en", emptySeries() + "/bench");
        page.click("#reading");
        page.evaluate("document.getElementById('reading').mine = 'the same'");
        type(page, "602.0", "0.1", "602.2", "0.3", "602.4", "0.5", "602.6", "0.7");
        hasReadings(page, "0.7", "602.6", "0.5", "602.4", "0.3", "602.2", "0.1", "602.0", "0.0");
        // nothing can get lost: the field has never been exchanged, and the page has not been left
        assertThat(page.evaluate("document.getElementById('reading').mine")).isEqualTo("the same");
        assertThat(focused(page)).isEqualTo("reading");
        Chromium.close(page);
    }

    /** A trial whose only series has its starting point; returns its path. */
    private static String emptySeries() {
        Visitor visitor = new Visitor(server.url());
        String trial = visitor.newTrial();
        visitor.post(trial + "/series", "speed", "25", "from", "0", "to", "600", "start", "0.0", "surface", "felt");
        return trial.substring(1);
    }

    @Test
    void readingsTypedWhileTheProgramIsAwayArriveInTheirOrder() {
        Page page = open("en", emptySeries() + "/bench");
        page.route("**/readings", Route::abort);
        page.click("#reading");
        type(page, "602.0", "0.1", "602.2");
        assertThatLocator(page.locator(".reading [data-kept]")).containsText("The program does not answer");
        page.keyboard().type("0.");
        page.unroute("**/readings");
        hasReadings(page, "602.2", "0.1", "602.0", "0.0");
        assertThatLocator(page.locator("#reading")).hasValue("0.");
        Chromium.close(page);
    }

    @Test
    void slipFoundWhileMoreIsTypedIsAnsweredBeforeTheRestIsRecorded() {
        Page page = open("en", emptySeries() + "/bench");
        List<Route> held = new CopyOnWriteArrayList<>();
        page.route("**/readings", held::add);
        page.click("#reading");
        type(page, "602.0");
        page.waitForCondition(() -> held.size() == 1);
        held.get(0).resume();
        hasReadings(page, "602.0", "0.0");
        type(page, "0.1", "6026", "0.3");
        page.keyboard().type("60");
        page.unroute("**/readings");
        held.get(1).resume();
        assertThatLocator(page.locator("#question")).isVisible();
        assertThatLocator(page.locator("#held strong")).hasText("6026");
        assertThatLocator(page.locator("#reading")).hasValue("60");
        page.click("#held button");
        assertThatLocator(page.locator("#reading")).hasValue("6026");
        type(page, "602.6");
        hasReadings(page, "0.3", "602.6", "0.1", "602.0", "0.0");
        assertThatLocator(page.locator("#reading")).hasValue("60");
        assertThatLocator(page.locator("#held")).isHidden();
        Chromium.close(page);
    }

    @Test
    void aDigitTypedAfterAClickElsewhereBeginsTheReading() {
        Page page = open("en", emptySeries() + "/bench");
        page.click(".now");
        assertThat(focused(page)).isNotEqualTo("reading");
        type(page, "602.5");
        hasReadings(page, "602.5", "0.0");
        Chromium.close(page);
    }

    @Test
    void secondViewerSeesReadingsComeInAndKeepsWhatHeTypes() {
        String path = trial().substring(1) + "/bench";
        Page first = open("en", path);
        Page second = open("de", path);
        second.locator("#reading").pressSequentially("12");
        second.click("table.rows summary >> nth=0");
        second.locator("table.rows input[type=text] >> nth=0").pressSequentially("Kabel");
        read(first, "602.5");
        second.waitForFunction("() => document.querySelector('.pass .value').textContent.startsWith('+2,3')");
        assertThat(second.textContent("#now")).contains("Zurück auf 0 mm");
        assertThat(second.inputValue("#reading")).isEqualTo("12");
        second.keyboard().type(" hing");
        assertThatLocator(second.locator("table.rows input[type=text]:visible")).hasValue("Kabel hing");
        Chromium.close(second);
        Chromium.close(first);
    }

    @Test
    void undoAndMarkWorkFromTheBench() {
        Page page = open("en", trial().substring(1) + "/bench");
        page.click(".undo button");
        page.waitForSelector("text=Bring it back");
        page.click("text=Bring it back");
        page.waitForSelector("text=Take back 0.2");
        page.click("table.rows summary >> nth=0");
        page.fill("table.rows input[type=text] >> nth=0", "cable caught");
        page.click("table.rows button[value=spoiled] >> nth=0");
        page.waitForSelector("table.rows .why");
        assertThat(page.textContent("table.rows .why")).contains("cable caught");
        Chromium.close(page);
    }

    @Test
    void trialPageLeadsWithTheAnswerAndDrawsTheChart() {
        Page page = open("en", trial().substring(1));
        assertThat(page.textContent("section.answer .line"))
                .contains("100 mm/s")
                .contains("25 mm/s");
        int plots = page.locator(".plot").count();
        assertThat(plots).as("error against speed, deviations in order").isEqualTo(2);
        page.waitForFunction("n => document.querySelectorAll('.plot .u-wrap canvas').length >= n", plots);
        page.waitForFunction("n => document.querySelectorAll('.plot .legend').length === n", plots);
        assertThat(page.textContent(".plot >> nth=0")).contains("mean with U", "single pass");
        page.focus(".plot >> nth=0");
        page.keyboard().press("ArrowRight");
        assertThat(page.textContent(".plot .said >> nth=0"))
                .as("the arrow keys read the points")
                .contains("speed in mm/s")
                .contains("25");
        assertThat(page.locator(".chart table tbody tr").count()).isEqualTo(6);
        page.click("section.answer .explain >> nth=0");
        assertThat(page.locator(".note:popover-open").textContent()).contains("fastest tested speed");
        page.keyboard().press("Escape");
        page.click("button[data-copy=reply-en]");
        page.waitForSelector("text=Copied");
        assertThat(page.evaluate("navigator.clipboard.readText()"))
                .isEqualTo(page.inputValue("#reply-en"))
                .asString()
                .contains("felt");
        Chromium.close(page);
    }

    @Test
    void trialPageRefusesAFactThatIsNoNumber() {
        Page page = open("de", trial().substring(1));
        page.fill("#fact_limit_length", "ein bisschen");
        page.click(".facts button.work");
        page.waitForSelector(".problems");
        assertThat(page.title()).startsWith("Fehler: ");
        assertThat(page.inputValue("#fact_limit_length")).isEqualTo("ein bisschen");
        assertThat(page.isVisible("#fact_limit_length-problem")).isTrue();
        Chromium.close(page);
    }

    @Test
    void listFiltersWhileTyping() {
        trial();
        Page page = open("en", "trials");
        page.fill("#q", "felt cutter");
        page.waitForURL("**/trials?q=felt*");
        assertThat(page.locator("table.trials tbody").count()).isPositive();
        page.fill("#q", "no such words");
        page.waitForSelector("text=No trial fits this filter");
        Chromium.close(page);
    }

    @ParameterizedTest
    @CsvSource({"LIGHT,1280,800", "DARK,1280,800", "LIGHT,820,1180", "DARK,820,1180"})
    void pagesAreAccessible(ColorScheme colours, int width, int height) {
        String trial = trial().substring(1);
        Page page = chromium.open("en", colours, width, height);
        for (String path : List.of("", "trials", trial + "/bench", trial, "trials/nosuchtrial1")) {
            page.navigate(server.url() + path);
            page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true; })");
            Axe.check(page, path);
        }
        page.navigate(server.url());
        page.fill("#moved", "six");
        page.click("button.work");
        page.waitForSelector(".problems");
        Axe.check(page, "error");
        page.navigate(server.url());
        page.fill("#moved", "600");
        page.fill("#speed", "50");
        page.fill("#went_from", "0.0");
        page.fill("#went_to", "600.6");
        page.fill("#back", "0.3");
        page.waitForSelector("#answer .figure.second");
        Axe.check(page, "answer");
        page.context().close();
    }

    @ParameterizedTest
    @CsvSource({"1280,800", "820,1180"})
    void everythingToTouchIsLargeEnoughAndNothingRunsOffThePage(int width, int height) {
        String trial = trial().substring(1);
        Page page = chromium.open("de", ColorScheme.LIGHT, width, height);
        for (String path : List.of("", "trials", trial + "/bench", trial)) {
            page.navigate(server.url() + path);
            page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true; })");
            Object wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");
            assertThat(((Number) wide).intValue()).as(path).isLessThanOrEqualTo(0);
            Locator targets = page.locator(
                    "button:visible, input:visible, select:visible, textarea:visible, summary:visible, nav a:visible");
            for (int i = 0; i < targets.count(); i++) {
                Locator target = targets.nth(i);
                if ("checkbox".equals(target.getAttribute("type"))) {
                    continue;
                }
                assertThat(target.boundingBox().height)
                        .as("%s: %s", path, target.evaluate("e => e.outerHTML"))
                        .isGreaterThanOrEqualTo(43.9);
            }
        }
        page.context().close();
    }
}
