package slowproof.app.web;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.PlaywrightException;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.FilePayload;
import com.microsoft.playwright.options.WaitForSelectorState;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import slowproof.app.demo.DemoArchive;
import slowproof.files.in.TrialReader;

/** Takes the pictures of the pages for the documents, with invented readings. Run by docs/take-pictures. */
final class Pictures {
    /** By how much the slider of the creep speed is moved. */
    private static final int SLOWER = 15;

    private final Page page;
    private final String home;
    private final Path folder;
    private final String suffix;

    private Pictures(Page page, String home, Path folder, String suffix) {
        this.page = page;
        this.home = home;
        this.folder = folder;
        this.suffix = suffix;
    }

    /** Writes all pictures to the folder named by the only argument. */
    public static void main(String[] arguments) throws IOException {
        Path folder = Path.of(arguments[0]);
        Files.createDirectories(folder);
        Path archive = Files.createTempDirectory("slowproof-pictures");
        try (Server server = Server.start(archive, 0);
                Server filled = Server.start(Files.createTempDirectory("slowproof-pictures-demo"), 0);
                Chromium chromium = Chromium.start()) {
            ZoneId zone = ZoneId.systemDefault();
            filled.whenEmpty(empty -> DemoArchive.fill(
                    empty,
                    TrialReader.read(Path.of("docs/samples/first-trial/trial.yaml"))
                            .trial(),
                    LocalDate.now(zone),
                    zone));
            new Visitor(filled.url()).get("/trials.csv");
            takeDesk(chromium, filled, folder, "en", ColorScheme.LIGHT, 1280, 800, "");
            takeDesk(chromium, filled, folder, "en", ColorScheme.LIGHT, 820, 1180, "-tablet");
            takeDesk(chromium, filled, folder, "de", ColorScheme.DARK, 1280, 800, "-de-dark");
            take(chromium, server, folder, "en", ColorScheme.LIGHT, 1280, 800, "");
            take(chromium, server, folder, "en", ColorScheme.LIGHT, 820, 1180, "-tablet");
            take(chromium, server, folder, "de", ColorScheme.DARK, 1280, 800, "-de-dark");
        }
    }

    private static void take(
            Chromium chromium,
            Server server,
            Path folder,
            String language,
            ColorScheme colours,
            int width,
            int height,
            String suffix) {
        Page page = chromium.open(language, colours, width, height);
        try {
            new Pictures(page, server.url(), folder, suffix).all(language.equals("de"));
        } catch (PlaywrightException e) {
            page.screenshot(new Page.ScreenshotOptions().setPath(folder.resolve("failed" + suffix + ".png")));
            throw e;
        }
        page.context().close();
    }

    private static void takeDesk(
            Chromium chromium,
            Server server,
            Path folder,
            String language,
            ColorScheme colours,
            int width,
            int height,
            String suffix) {
        Page page = chromium.open(language, colours, width, height);
        new Pictures(page, server.url(), folder, suffix).desk();
        page.context().close();
    }

    private void all(boolean german) {
        page.navigate(home + "trials?q=nothing-has-these-words");
        page.navigate(home);
        shoot("start-empty");
        type("moved", "600");
        type("speed", "50");
        type("went_from", german ? "0,0" : "0.0");
        type("went_to", german ? "600,6" : "600.6");
        page.waitForSelector(".figures");
        type("back", german ? "0,3" : "0.3");
        page.waitForSelector(".figure.second >> nth=1");
        shoot("start");
        type("limit", german ? "0,15" : "0.15");
        type("reference", german ? "0,02" : "0.02");
        type("surface", german ? "Akustikfilz" : "acoustic felt");
        page.waitForSelector("#answer .verdict:not(.none)");
        shoot("start-decision");
        page.click("#answer .actions button");
        page.waitForURL("**/bench");
        for (String reading : List.of("600.8", "0.4", "600.9", "0.5", "601.1", "0.6")) {
            read(german ? reading.replace('.', ',') : reading);
        }
        series("100", "0.6", german);
        for (String reading : List.of("600.8", "0.7", "600.9", "0.8", "601.0", "0.8")) {
            read(german ? reading.replace('.', ',') : reading);
        }
        series("25", "0.8", german);
        for (String reading : List.of("603.0", "0.5", "602.6", "0.4", "602.9")) {
            read(german ? reading.replace('.', ',') : reading);
        }
        shoot("bench");
        page.fill("#reading", german ? "abc" : "6O2.7");
        page.keyboard().press("Enter");
        page.waitForSelector(".problems");
        shoot("bench-error");
        page.fill("#reading", german ? "0,6" : "0.6");
        page.keyboard().press("Enter");
        page.waitForSelector(".problems", new Page.WaitForSelectorOptions().setState(WaitForSelectorState.DETACHED));
        page.click(".tabs a >> nth=1");
        page.waitForSelector(".uplot");
        shoot("trial");
        full("trial-whole");
        page.click("#answer-title ~ .line .explain");
        shoot("explain");
        page.keyboard().press("Escape");
        page.click(".tabs a >> nth=2");
        page.waitForSelector("#charts .plot .legend >> nth=0");
        full("line-whole");
        page.focus("#tried");
        for (int i = 0; i < SLOWER; i++) {
            page.keyboard().press("ArrowLeft");
        }
        page.waitForFunction("() => document.querySelector('#tried').value === '" + (50 - SLOWER) + "'"
                + " && document.querySelector('#back') && !document.querySelector('.stale')");
        shoot("line");
        page.fill("#length", german ? "0,1 m" : "0.1 m");
        page.waitForSelector(".problems");
        shoot("line-error");
        page.fill("#length", "1000");
        page.waitForSelector("#line .answer");
        recordings(german);
    }

    /** Pages of the desk, on the invented scenario of the demo. */
    private void desk() {
        page.navigate(home + "trials");
        shoot("trials");
        page.navigate(home + "questions?material=acoustic+felt&slowest=90&fastest=400&piece=900&tolerance=2");
        shoot("questions");
        page.navigate(home + "questions/2");
        full("question-whole");
        page.navigate(home + "compare?trial=demo00000001&trial=demo00000003");
        page.waitForSelector(".plot .uplot");
        shoot("compare");
        page.navigate(home + "samples");
        shoot("samples");
        page.navigate(home + "samples/2");
        shoot("sample");
        page.navigate(home + "samples/2/label");
        shoot("label");
        page.navigate(home + "take-in");
        shoot("take-in");
    }

    private void recordings(boolean german) {
        page.navigate(home + "recordings/new");
        shoot("recordings-new");
        page.setInputFiles(
                "#logs",
                new FilePayload(
                        "run-07.csv",
                        "text/csv",
                        (german ? Recorded.german() : Recorded.plain()).getBytes(StandardCharsets.UTF_8)));
        page.waitForSelector("#reading");
        if (german) {
            page.selectOption("#f1_c1", "time");
            page.selectOption("#f1_c2", "count");
            page.selectOption("#f1_c3", "reference");
            page.waitForSelector(
                    "#read .problems", new Page.WaitForSelectorOptions().setState(WaitForSelectorState.DETACHED));
        }
        type("count_mm", german ? "0,05" : "0.05");
        shoot("reading");
        page.click("#reading button.work");
        page.waitForSelector(".trace .u-wrap");
        type("f1_material", german ? "Akustikfilz" : "acoustic felt");
        page.click("table.passes .show >> nth=2");
        page.waitForTimeout(400);
        page.evaluate("window.scrollTo(0, 0)");
        shoot("passes");
        type("fact_limit_percent", german ? "0,15" : "0.15");
        type("fact_reference_uncertainty", german ? "0,02" : "0.02");
        page.click("#keep button.work");
        page.waitForURL("**/trials/*");
    }

    private void series(String speed, String start, boolean german) {
        page.click(".series summary");
        type("speed", speed);
        type("start", german ? start.replace('.', ',') : start);
        page.click(".series button.work");
        page.waitForSelector(".now >> text=" + speed);
    }

    private void read(String text) {
        int before = page.locator("table.rows tbody tr").count();
        page.fill("#reading", text);
        page.keyboard().press("Enter");
        page.waitForFunction("n => document.querySelectorAll('table.rows tbody tr').length > n", before);
    }

    private void type(String field, String text) {
        page.fill("#" + field, text);
    }

    private void shoot(String name) {
        settle();
        page.screenshot(new Page.ScreenshotOptions().setPath(folder.resolve(name + suffix + ".png")));
    }

    private void full(String name) {
        settle();
        page.screenshot(new Page.ScreenshotOptions()
                .setPath(folder.resolve(name + suffix + ".png"))
                .setFullPage(true));
    }

    private void settle() {
        page.evaluate("document.fonts.ready");
        page.waitForTimeout(250);
    }
}
