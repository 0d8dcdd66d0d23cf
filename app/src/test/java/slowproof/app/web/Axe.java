package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;

/** Looks a page over for what keeps people out: contrast, names, roles, order. */
final class Axe {
    private static final String SCRIPT = "/META-INF/resources/webjars/axe-core/4.6.3/axe.min.js";

    private Axe() {}

    /** Fails with every violation found. */
    static void check(Page page, String what) {
        try (InputStream stream = Axe.class.getResourceAsStream(SCRIPT)) {
            page.evaluate(new String(Objects.requireNonNull(stream).readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Object found = page.evaluate("async () => (await axe.run(document)).violations"
                + ".map(v => v.id + ': ' + v.nodes.map(n => n.html + ' ' + n.failureSummary).join('; ')).join('\\n')");
        assertThat(found).as(what).isEqualTo("");
    }
}
