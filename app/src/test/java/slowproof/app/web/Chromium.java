package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.ColorScheme;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Assumptions;

/** The browser that the tests drive: the one that the machine has installed, with a fresh profile every time. */
final class Chromium implements AutoCloseable {
    /** Counts refused scripts, styles and other breaches of the content security policy. */
    private static final String WATCH_POLICY = "window.breaches = [];"
            + "document.addEventListener('securitypolicyviolation', e => window.breaches.push(e.violatedDirective + ' ' + e.blockedURI));";

    private static final List<String> PLACES =
            List.of("/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome", "/snap/bin/chromium");

    private final Playwright playwright;
    private final Browser browser;

    private Chromium(Path executable) {
        playwright = Playwright.create(
                new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
        browser = playwright
                .chromium()
                .launch(new BrowserType.LaunchOptions()
                        .setExecutablePath(executable)
                        .setArgs(List.of("--no-sandbox", "--disable-gpu", "--disable-background-networking")));
    }

    static Optional<Path> find() {
        return PLACES.stream().map(Path::of).filter(Files::isExecutable).findFirst();
    }

    /** Starts the browser; without one the test is skipped and says so. */
    static Chromium start() {
        Optional<Path> executable = find();
        Assumptions.assumeTrue(
                executable.isPresent(),
                "skipped: no Chromium on this machine, looked for " + String.join(", ", PLACES));
        return new Chromium(executable.orElseThrow());
    }

    /** Opens a window of its own, with its own cookies, that watches the policy. */
    Page open(String language, ColorScheme colours, int width, int height) {
        BrowserContext context = browser.newContext(new Browser.NewContextOptions()
                .setLocale(language.equals("de") ? "de-DE" : "en-GB")
                .setColorScheme(colours)
                .setPermissions(List.of("clipboard-read", "clipboard-write"))
                .setViewportSize(width, height));
        context.addInitScript(WATCH_POLICY);
        context.setDefaultTimeout(10_000);
        return context.newPage();
    }

    Page open(String language) {
        return open(language, ColorScheme.LIGHT, 1280, 800);
    }

    /** Closes a window; fails when its page had broken the policy. */
    static void close(Page page) {
        assertThat(page.evaluate("window.breaches.join()")).isEqualTo("");
        page.context().close();
    }

    @Override
    public void close() {
        browser.close();
        playwright.close();
    }
}
