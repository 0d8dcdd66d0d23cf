package slowproof.app.web;

import com.microsoft.playwright.Page;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;

/** What tests of pages in a real browser share: an empty archive, its server, and the browser. */
abstract class BrowserPages {
    @TempDir
    static Path folder;

    static Server server;
    static Chromium chromium;

    @BeforeAll
    static void begin() {
        chromium = Chromium.start();
        server = Server.start(folder.resolve("archive"), 0);
    }

    @AfterAll
    static void end() {
        if (server != null) {
            server.close();
            chromium.close();
        }
    }

    /** Opens a page in a window of its own; the path is without the slash at its start. */
    static Page open(String language, String path) {
        Page page = chromium.open(language);
        page.navigate(server.url() + path);
        return page;
    }
}
