package slowproof.app.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import slowproof.files.in.LineReader;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;

/** The page of a line in a real browser. */
class LineBrowserTest extends BrowserPages {
    private static final Pattern BETTER =
            Pattern.compile("\\(([0-9.]+)\\smm better\\)", Pattern.UNICODE_CHARACTER_CLASS);

    private static final int PATIENCE_MS = 30_000;

    private static String trial;

    @BeforeAll
    static void type() {
        trial = trial();
        // charts take a busy machine a while
        PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE_MS);
    }

    /** An invented trial at four speeds; slow passes lose length. Returns its path. */
    private static String trial() {
        Visitor visitor = new Visitor(server.url());
        String path = visitor.newTrial();
        visitor.post(
                path + "/facts",
                "fact_limit_percent",
                "0.15",
                "fact_reference_uncertainty",
                "0.02",
                "fact_acceleration",
                "500",
                "fact_title",
                "Felt at the cutter");
        for (String[] series : new String[][] {
            {"200", "600.2", "0.0", "600.2", "0.1", "600.3", "0.1"},
            {"100", "600.2", "0.1", "600.3", "0.1", "600.3", "0.2"},
            {"50", "599.9", "0.2", "599.8", "0.1", "600.0", "0.3"},
            {"25", "597.4", "0.2", "597.5", "0.1", "597.6", "0.2"}
        }) {
            visitor.post(
                    path + "/series", "speed", series[0], "from", "0", "to", "600", "start", "0.0", "surface", "felt");
            for (int i = 1; i < series.length; i++) {
                visitor.post(path + "/readings", "reading", series[i]);
            }
        }
        return path.substring(1);
    }

    /** Takes back what a test before has typed: the page keeps it. */
    private static void forget() {
        List<String> empty = new ArrayList<>();
        LineForm.FIELDS.forEach(field -> empty.addAll(List.of(field, "")));
        new Visitor(server.url()).post("/" + trial + "/line/draft", empty.toArray(new String[0]));
    }

    private static Page open(String language, ColorScheme colours, int width, int height) {
        forget();
        Page page = chromium.open(language, colours, width, height);
        page.setDefaultTimeout(PATIENCE_MS);
        page.navigate(server.url() + trial + "/line");
        return page;
    }

    private static Page open(String language) {
        return open(language, ColorScheme.LIGHT, 1280, 800);
    }

    private static void describe(Page page, String... fields) {
        for (int i = 0; i < fields.length; i += 2) {
            page.fill("#" + fields[i], fields[i + 1]);
        }
    }

    private static Object focused(Page page) {
        return page.evaluate("document.activeElement.id");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "en|1.2 m|1.8|25|Creeping at 25 mm/s|\u00b11.8 mm|can be promised for 95 % of the pieces",
                "de|1200|1,8|25|Kriechgang 25 mm/s|\u00b11,8 mm|lassen sich f\u00fcr 95 % der St\u00fccke zusagen"
            })
    void fromTheTrialToTheStripAndTheTwoSentences(
            String language,
            String length,
            String tolerance,
            String creep,
            String heading,
            String limit,
            String promise) {
        forget();
        Page page = open(language, trial);
        page.click(".tabs a >> nth=2");
        page.waitForURL("**/line");
        describe(page, "length", length, "tolerance", tolerance, "creep", creep);
        assertThat(page.locator("#line-answer")).hasText(heading);
        assertThat(page.locator("#line .line.big")).containsText(limit);
        assertThat(page.locator("#line .second")).containsText(promise);
        assertThat(page.locator(".piece text").last()).hasText("1200");
        assertThat(page.locator(".piece .part")).hasCount(160);
        // where felt creeps most of the length is lost: the strip is darkest there
        assertThat(darkest(page)).isGreaterThan(0.85);
        assertThat(page.locator("#line-said")).containsText(limit);
        // everything typed is there again
        page.reload();
        assertThat(page.inputValue("#length")).isEqualTo(length);
        assertThat(page.locator("#line-answer")).hasText(heading);
        Chromium.close(page);
    }

    /** Returns where along the piece the darkest part lies, 0 to 1. */
    private static double darkest(Page page) {
        return ((Number) page.evaluate(
                        "() => { const all = [...document.querySelectorAll('.piece .part')].map(p => +p.getAttribute('fill-opacity'));"
                                + " return all.indexOf(Math.max(...all)) / all.length; }"))
                .doubleValue();
    }

    /** Notes what heading, strip and sentence show whenever something changes. */
    private static final String WATCH = "() => { window.seen = []; const note = () => window.seen.push(["
            + "document.querySelector('#line-answer').textContent,"
            + "[...document.querySelectorAll('.piece .part')].map(p => p.getAttribute('fill-opacity')).join(),"
            + "[...document.querySelectorAll('#line .second')].map(p => p.textContent).join()]);"
            + " new MutationObserver(note).observe(document.querySelector('main'), {subtree: true, childList: true}); }";

    @Test
    void sliderChangesStripAndSentenceTogether() {
        Page page = open("en");
        page.evaluate(WATCH);
        page.focus("#tried");
        for (int i = 0; i < 20; i++) {
            page.keyboard().press("ArrowLeft");
        }
        assertThat(page.locator("#line-answer")).hasText("Creeping at 30 mm/s, tried (described: 50 mm/s)");
        assertThat(focused(page)).isEqualTo("tried");
        assertThat(page.inputValue("#tried")).isEqualTo("30");
        page.keyboard().press("ArrowRight");
        assertThat(page.locator("#line-answer")).containsText("31 mm/s, tried");
        BoundingBox box = page.locator("#tried").boundingBox();
        page.mouse().move(box.x + 0.1 * box.width, box.y + box.height / 2);
        page.mouse().down();
        page.mouse().move(box.x + 0.6 * box.width, box.y + box.height / 2);
        page.mouse().up();
        page.waitForFunction("() => Number(/at (\\d+)/.exec(document.querySelector('#line-answer').textContent)[1])"
                + " === Number(document.querySelector('#tried').value)");
        assertThat(Double.parseDouble(page.inputValue("#tried"))).isBetween(110.0, 140.0);
        Map<String, TreeSet<String>> shown = new TreeMap<>();
        for (Object one : (List<?>) page.evaluate("window.seen")) {
            List<?> now = (List<?>) one;
            shown.computeIfAbsent(now.get(0).toString(), heading -> new TreeSet<>())
                    .add(now.get(1) + " " + now.get(2));
        }
        assertThat(shown).hasSizeGreaterThanOrEqualTo(3);
        assertThat(shown)
                .allSatisfy((heading, both) -> assertThat(both).as(heading).hasSize(1));
        Chromium.close(page);
    }

    @Test
    void sliderGoesBackToTheLineAsDescribed() {
        Page page = open("en");
        String before = page.textContent("#line .second");
        page.focus("#tried");
        page.keyboard().press("End");
        assertThat(page.locator("#line-answer")).containsText("200 mm/s, tried");
        assertThat(page.textContent("#line .second")).isNotEqualTo(before);
        page.keyboard().press("Tab");
        page.keyboard().press("Tab");
        assertThat(focused(page)).isEqualTo("back");
        page.keyboard().press("Enter");
        assertThat(page.locator("#line-answer")).hasText("Creeping at 50 mm/s");
        assertThat(page.locator("#line .second")).hasText(before);
        assertThat(page.locator("#back")).hasCount(0);
        assertThat(focused(page)).isEqualTo("tried");
        assertThat(page.inputValue("#tried")).isEqualTo("50");
        Chromium.close(page);
    }

    @ParameterizedTest
    @CsvSource({"en,Error: Pieces on the line,the piece is only 150 mm", "de,Fehler: St\u00fccke,nur 150 mm lang"})
    void anImpossibleLineIsSaidAtItsField(String language, String title, String message) {
        Page page = open(language);
        page.fill("#length", "150");
        assertThat(page.locator("#length-problem")).containsText(message);
        assertThat(page.locator(".problems a")).hasText(page.textContent("#length-problem"));
        assertThat(page.locator("#length")).hasAttribute("aria-invalid", "true");
        assertThat(page.locator("#length")).hasAttribute("aria-describedby", "length-problem");
        assertThat(page.title()).startsWith(title);
        assertThat(focused(page)).isEqualTo("length");
        assertThat(page.locator("#line .answer")).hasCount(0);
        assertThat(page.locator("#rest .exports")).hasCount(0);
        page.fill("#length", "1000");
        assertThat(page.locator("#line .answer")).hasCount(1);
        assertThat(page.locator(".problems")).hasCount(0);
        page.fill("#fast", "fast");
        assertThat(page.locator("#fast-problem")).containsText("fast");
        assertThat(page.inputValue("#fast")).isEqualTo("fast");
        page.fill("#fast", "200");
        assertThat(page.locator("#line .answer")).hasCount(1);
        page.waitForCondition(() -> page.locator("#charts .plot").count() > 0);
        Chromium.close(page);
    }

    @Test
    void whatOneChangeBuysComesMostFirst() {
        Page page = open("en");
        List<Double> gains = new ArrayList<>();
        for (String change : page.locator(".changes li").allTextContents()) {
            Matcher better = BETTER.matcher(change);
            gains.add(better.find() ? Double.parseDouble(better.group(1)) : 0);
        }
        assertThat(gains).hasSizeGreaterThan(3).isSortedAccordingTo(Comparator.reverseOrder());
        assertThat(page.locator(".promises li").first()).containsText("Slowest creep");
        page.focus("#tried");
        page.keyboard().press("End");
        assertThat(page.locator("#rest.stale")).hasCount(0);
        String first = page.textContent(".changes li >> nth=0");
        page.keyboard().press("Home");
        assertThat(page.locator(".changes li").first()).not().hasText(first);
        Chromium.close(page);
    }

    @Test
    void slowerThanTestedIsNotCoveredAndThePassToAddIsNamed() {
        Page page = open("en");
        page.fill("#creep", "10");
        assertThat(page.locator(".gaps")).containsText("slower than any tested speed. Add passes at 10 mm/s.");
        assertThat(page.locator("#line .line.big")).not().hasClass(Pattern.compile("good"));
        assertThat(page.locator("#tried")).hasValue("10");
        page.fill("#creep", "50");
        assertThat(page.locator(".gaps")).not().containsText("slower than any");
        Chromium.close(page);
    }

    @Test
    void chartsFollowTheSlider() {
        Page page = open("en");
        page.waitForFunction("() => { const n = document.querySelectorAll('#charts .plot').length;"
                + " return n > 0 && document.querySelectorAll('#charts .plot .legend').length === n; }");
        String before = page.getAttribute("#charts .plot >> nth=0", "data-chart");
        page.focus("#tried");
        page.keyboard().press("End");
        page.waitForFunction(
                "before => { const plot = document.querySelector('#charts .plot'); return plot && plot.dataset.chart !== before"
                        + " && document.querySelectorAll('#charts .plot .legend').length === document.querySelectorAll('#charts .plot').length; }",
                before);
        Chromium.close(page);
    }

    @Test
    void filesSpeakOfTheLineShown() throws IOException {
        Page page = open("en");
        page.focus("#tried");
        page.keyboard().press("ArrowLeft");
        assertThat(page.locator("#line-answer")).containsText("49 mm/s, tried");
        assertThat(page.locator("#rest.stale")).hasCount(0);
        Download yaml = page.waitForDownload(() -> page.click("text=Line file (YAML)"));
        Line line = LineReader.read(yaml.path()).line();
        assertThat(line.cycle().get(2)).isEqualTo(LineStep.RampTo.of(49, 500));
        Download json = page.waitForDownload(() -> page.click("text=Forecast (JSON)"));
        assertThat(json.suggestedFilename()).isEqualTo("felt-at-the-cutter.forecast.json");
        assertThat(Files.readString(json.path()))
                .contains("\"schema\" : \"forecast/1\"")
                .contains("\"file\" : \"line.yaml\"")
                .doesNotContain("/tmp");
        Download csv = page.waitForDownload(() -> page.click("text=Figures (CSV)"));
        assertThat(Files.readString(csv.path())).contains("tolerance_mm_at_95,");
        Download xlsx = page.waitForDownload(() -> page.click("text=Workbook (XLSX)"));
        // a workbook is a ZIP
        assertThat(Files.readAllBytes(xlsx.path())).startsWith('P', 'K');
        Chromium.close(page);
    }

    @ParameterizedTest
    @CsvSource({"LIGHT,1280,800", "DARK,1280,800", "LIGHT,820,1180", "DARK,820,1180"})
    void thePageIsAccessible(ColorScheme colours, int width, int height) {
        Page page = open("en", colours, width, height);
        page.waitForSelector("#charts .plot .legend >> nth=0");
        page.focus("#tried");
        page.keyboard().press("Home");
        page.waitForSelector("#back");
        assertThat(page.locator(".stale")).hasCount(0);
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true; })");
        Axe.check(page, "line");
        page.fill("#length", "150");
        page.waitForSelector(".problems");
        assertThat(page.locator(".stale")).hasCount(0);
        Axe.check(page, "impossible line");
        page.context().close();
    }

    @ParameterizedTest
    @CsvSource({"1280,800", "820,1180"})
    void everythingToTouchIsLargeEnoughAndNothingRunsOffThePage(int width, int height) {
        Page page = open("de", ColorScheme.LIGHT, width, height);
        page.waitForSelector("#charts .plot .legend >> nth=0");
        page.focus("#tried");
        page.keyboard().press("End");
        page.waitForSelector("#back");
        Object wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");
        assertThat(((Number) wide).intValue()).isLessThanOrEqualTo(0);
        Locator targets = page.locator("main button:visible, main input:visible, main select:visible,"
                + " main summary:visible, main a.button:visible");
        assertThat(targets.count()).isGreaterThan(10);
        for (int i = 0; i < targets.count(); i++) {
            assertThat(targets.nth(i).boundingBox().height)
                    .as("%s", targets.nth(i).evaluate("e => e.outerHTML"))
                    .isGreaterThanOrEqualTo(43.9);
        }
        page.context().close();
    }

    @Test
    void thePageWorksWithoutScript() {
        forget();
        Visitor visitor = new Visitor(server.url());
        String address = "/" + trial + "/line?material=felt&length=1000&tolerance=1.5&fast=200&acceleration=500"
                + "&creep=50&creeps=100";
        String plain = visitor.get(address).body();
        assertThat(plain)
                .contains("Creeping at 50 mm/s<", "can be promised", "What one change buys", "Before anything");
        assertThat(visitor.get(address + "&described=50&tried=40").body()).contains("Creeping at 40 mm/s, tried");
        assertThat(visitor.get(address + "&described=50&tried=40&back=yes").body())
                .contains("Creeping at 50 mm/s<");
        // the slider stood there for a line that was described otherwise
        assertThat(visitor.get(address + "&described=60&tried=40").body()).contains("Creeping at 50 mm/s<");
        var refused = visitor.get(address.replace("creep=50", "creep=crawl"));
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body()).contains("crawl", "is not a number", "creep-problem");
        assertThat(visitor.get(address.replace("length=1000", "length=100").replace("line?", "line/forecast.json?"))
                        .statusCode())
                .isEqualTo(404);
    }
}
