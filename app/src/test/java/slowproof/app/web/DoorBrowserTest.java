package slowproof.app.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.net.ServerSocket;
import java.net.URI;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Locale;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import slowproof.archive.Archive;
import slowproof.archive.account.Role;
import slowproof.wording.Wording;

/** Log-in and accounts in a real browser. */
class DoorBrowserTest {
    private static final String PASSWORD = "felt and film at noon";

    @TempDir
    static Path folder;

    private static Chromium chromium;
    private static Server server;

    @BeforeAll
    static void start() throws IOException {
        chromium = Chromium.start();
        try (Archive archive = Archive.open(folder, Clock.systemUTC())) {
            archive.accounts().add("ada", Role.ADMIN, PASSWORD);
        }
        int port;
        try (ServerSocket free = new ServerSocket(0)) {
            port = free.getLocalPort();
        }
        server = Server.start(folder, new Reach("127.0.0.1", port, URI.create("http://localhost:" + port)));
    }

    @AfterAll
    static void stop() {
        if (server != null) {
            server.close();
        }
        if (chromium != null) {
            chromium.close();
        }
    }

    private static void logIn(Page page) {
        page.fill("#name", "ada");
        page.fill("#password", PASSWORD);
        page.keyboard().press("Enter");
    }

    @Test
    void aReadingTypedAtTheBenchIsRecordedByWhoLoggedIn() {
        Page page = chromium.open("en");
        page.navigate(server.url() + "trials");
        assertThat(page).hasTitle(java.util.regex.Pattern.compile("Log in.*"));
        logIn(page);
        page.waitForURL("**/trials");
        page.click("main form[action='/trials'] button.work");
        page.waitForURL("**/bench");
        page.fill("#speed", "50");
        page.fill("#from", "0");
        page.fill("#to", "600");
        page.fill("#start", "0.0");
        page.fill("#surface", "acoustic felt");
        page.keyboard().press("Enter");
        page.waitForSelector("#reading");
        page.fill("#reading", "600.6");
        page.keyboard().press("Enter");
        assertThat(page.locator("#bench")).containsText("600.6");
        page.click(".reader button");
        page.waitForURL("**/log-in");
        page.context().close();
    }

    @Test
    void anAccountIsAddedAndClosedFromThePage() {
        Page page = chromium.open("en");
        page.navigate(server.url() + "accounts");
        logIn(page);
        page.waitForURL("**/accounts");
        page.fill("form[action='/accounts'] #name", "kim");
        page.fill("form[action='/accounts'] #password", "short");
        page.click("form[action='/accounts'] button.work");
        assertThat(page.locator("#password-problem")).containsText("12 to 128");
        page.fill("form[action='/accounts'] #password", "aluminium in the evening");
        page.selectOption("form[action='/accounts'] #role", "bench");
        page.click("form[action='/accounts'] button.work");
        assertThat(page.locator("#account-kim .when")).containsText("bench");
        page.click("#account-kim summary");
        page.click("#account-kim form:last-of-type button");
        assertThat(page.locator("#account-kim .when")).containsText("closed");
        page.context().close();
    }

    @ParameterizedTest
    @CsvSource({"LIGHT,1280,800,en", "DARK,820,1180,de"})
    void thePagesAreAccessibleAndSpeakBothLanguages(ColorScheme colours, int width, int height, String language) {
        Page page = chromium.open(language, colours, width, height);
        page.navigate(server.url() + "log-in");
        Axe.check(page, "log-in");
        page.fill("#name", "ada");
        page.fill("#password", "wrong");
        page.keyboard().press("Enter");
        Wording wording = Wording.of(Locale.forLanguageTag(language)).withPages();
        assertThat(page.locator(".problems")).containsText(wording.text("log_in.wrong"));
        Axe.check(page, "wrong password");
        logIn(page);
        page.waitForURL(server.url());
        for (String path : new String[] {"account", "accounts"}) {
            page.navigate(server.url() + path);
            page.locator("summary").all().forEach(summary -> summary.click());
            Axe.check(page, path);
            assertThat((Integer) page.evaluate("document.documentElement.scrollWidth"))
                    .as(path)
                    .isLessThanOrEqualTo(width);
            page.screenshot(new Page.ScreenshotOptions()
                    .setPath(Path.of("target", "door-" + path + "-" + language + ".png"))
                    .setFullPage(true));
        }
        page.context().close();
    }
}
