package slowproof.app.web;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import slowproof.app.demo.DemoArchive;
import slowproof.files.in.TrialReader;

/**
 * Trials, questions, comparisons and samples in a real browser, on the archive of the demo: the main way of each page, its
 * commonest mistake, and what two people do to one sample.
 */
class DeskBrowserTest extends BrowserPages {
    private static final String FELT = "/trials/demo00000001";

    @BeforeAll
    static void fill() {
        ZoneId zone = ZoneId.systemDefault();
        server.whenEmpty(archive -> DemoArchive.fill(
                archive,
                TrialReader.read(Path.of("../docs/samples/first-trial/trial.yaml"))
                        .trial(),
                LocalDate.now(zone),
                zone));
        // waits until every trial is summed up
        new Visitor(server.url()).get("/trials.csv");
    }

    @Test
    void listOfTrialsIsNarrowedBySurfaceAndSpeedAndLeadsToTheTrial() {
        Page page = open("en", "trials");
        assertThat(page.locator(".invented")).isVisible();
        assertThat(page.locator("table.trials tbody")).hasCount(14);
        page.click("details.more summary");
        page.fill("#material", "film");
        assertThat(page.locator("table.trials tbody")).hasCount(4);
        page.selectOption("#standing", "undecided");
        assertThat(page.locator("table.trials tbody")).hasCount(1);
        page.fill("#slowest", "fast");
        page.press("#slowest", "Enter");
        assertThat(page.locator(".problems")).containsText("\"fast\" is not a number");
        page.fill("#slowest", "");
        page.click("table.trials a.title");
        page.waitForURL("**/trials/demo*");
        Chromium.close(page);
    }

    @Test
    void whatIsDueComesFirstOnTheFirstPage() {
        Page page = open("de", "");
        Locator waiting = page.locator(".waiting li");
        assertThat(waiting.first()).containsText("Muster überfällig");
        assertThat(waiting.nth(1)).containsText("Antwort überfällig");
        waiting.first().locator("a").click();
        page.waitForURL("**/samples/2");
        Chromium.close(page);
    }

    @ParameterizedTest
    @CsvSource({"en,Yes\\, by our trial", "de,Ja\\, nach unserem Versuch"})
    void aQuestionIsAnsweredWhileItIsTypedAndKept(String language, String answer) {
        Page page = open(language, "questions");
        page.fill("#material", "acoustic felt");
        page.fill("#slowest", "90");
        page.fill("#fastest", "400");
        page.fill("#piece", "900");
        page.fill("#tolerance", "2");
        assertThat(page.locator("#evidence")).containsText(answer.replace("\\", ""));
        page.click("form.slip button.work");
        page.waitForURL("**/questions/*");
        assertThat(page.locator(".replies textarea")).hasCount(2);
        page.click(".reply button.work");
        assertThat(page.locator("details.history li")).hasCount(2);
        Chromium.close(page);
    }

    @Test
    void aQuestionWithoutANumberSaysWhichBesideTheField() {
        Page page = open("en", "questions");
        page.fill("#material", "acoustic felt");
        page.fill("#slowest", "slow");
        page.click("form.slip button.work");
        page.waitForSelector(".problems");
        assertThat(page).hasTitle(Pattern.compile("^Error: Questions"));
        assertThat(page.locator("#slowest-problem")).containsText("\"slow\" is not a number");
        assertThat(page.locator("#material")).hasValue("acoustic felt");
        Chromium.close(page);
    }

    @Test
    void twoResultsAreChosenAndCompared() {
        Page page = open("en", "compare");
        page.fill("#q", "felt, first look");
        assertThat(page.locator(".offers .of")).hasCount(1);
        assertThat(page.locator(".offers .of")).hasText("Felt, first look at the new sensor");
        page.click(".offers a.title");
        assertThat(page.locator(".compared li")).hasCount(1);
        page.fill("#q", "felt, second sensor");
        assertThat(page.locator(".offers .of")).hasCount(1);
        assertThat(page.locator(".offers .of")).hasText("Felt, second sensor");
        page.click(".offers a.title");
        page.waitForSelector(".plot .uplot");
        assertThat(page.locator("section table tbody tr").first()).isVisible();
        assertThat(page.locator(".said").first()).containsText("Felt, second sensor");
        Chromium.close(page);
    }

    @Test
    void aResultThatIsNotHereIsSaid() {
        Page page = open("en", "compare?line=nosuchtrial1.0.");
        assertThat(page.locator(".problems")).containsText("not in this archive");
        Chromium.close(page);
    }

    @ParameterizedTest
    @CsvSource({"en,It went back,It is here after all", "de,Es ist zurückgegangen,Es ist doch hier"})
    void aSampleIsNotedLinkedGivenBackAndTakenBack(String language, String back, String here) {
        Page page = open(language, "samples");
        page.fill("#sender", "Plant Q");
        page.fill("#material", "acoustic felt " + language);
        page.fill("#batch", "Q-1");
        page.fill("#due", LocalDate.now().minusDays(1).toString());
        page.fill("#received", LocalDate.now().minusDays(9).toString());
        page.click("form.slip button.work");
        page.waitForURL("**/samples/*");
        assertThat(page.locator(".overdue")).isVisible();
        page.fill("#trial", server.url() + FELT.substring(1));
        page.click("form[action$='/linked'] button");
        assertThat(page.locator(".linked a").first()).hasAttribute("href", FELT);
        page.click("text=" + back);
        assertThat(page.locator(".overdue")).hasCount(0);
        page.click("text=" + here);
        assertThat(page.locator(".overdue")).isVisible();
        page.click("a.button[href$='/label']");
        assertThat(page.locator(".label .code")).containsText("S-00");
        // leaves nothing overdue behind for the other tests
        page.goBack();
        page.click("text=" + back);
        assertThat(page.locator(".overdue")).hasCount(0);
        Chromium.close(page);
    }

    @Test
    void aSampleWithoutSenderSaysSoBesideTheField() {
        Page page = open("en", "samples");
        page.fill("#material", "felt");
        page.click("form.slip button.work");
        page.waitForSelector(".problems");
        assertThat(page.locator("#sender-problem")).isVisible();
        assertThat(page.locator("#material")).hasValue("felt");
        Axe.check(page, "samples, error");
        Chromium.close(page);
    }

    @Test
    void theSecondOfTwoWhoEditASampleIsTold() {
        Page first = open("en", "samples/4");
        Page second = open("en", "samples/4");
        first.fill("#storage", "shelf 7");
        first.click("form.slip button.work");
        assertThat(first.locator("#storage")).hasValue("shelf 7");
        second.fill("#amount", "half a roll");
        second.click("form.slip button.work");
        assertThat(second.locator(".meanwhile")).containsText("shelf 7");
        assertThat(second.locator("#amount")).hasValue("half a roll");
        Axe.check(second, "samples, conflict");
        first.reload();
        assertThat(first.locator("#amount")).hasValue("");
        Chromium.close(first);
        Chromium.close(second);
    }

    @Test
    void theSecondOfTwoWhoChangeOneFactOfATrialIsTold() {
        Page first = open("en", "trials/demo00000004");
        Page second = open("en", "trials/demo00000004");
        for (Page page : List.of(first, second)) {
            page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true; })");
        }
        first.fill("#fact_who", "Ada");
        first.locator("#fact_who").press("Enter");
        first.waitForLoadState();
        second.fill("#fact_who", "Ben");
        second.locator("#fact_who").press("Enter");
        assertThat(second.locator(".meanwhile")).containsText("Ada");
        assertThat(second.locator("#fact_who")).hasValue("Ben");
        Axe.check(second, "trial, conflict");
        Chromium.close(first);
        Chromium.close(second);
    }

    @ParameterizedTest
    @CsvSource({"LIGHT,1280,800,en", "DARK,820,1180,de"})
    void pagesAreAccessibleAndFitTheWindow(ColorScheme colours, int width, int height, String language) {
        Page page = chromium.open(language, colours, width, height);
        for (String path : List.of(
                "",
                "trials",
                "questions",
                "questions?material=acoustic+felt&slowest=90&piece=900&tolerance=2",
                "questions/1",
                "compare",
                "compare?trial=demo00000001&trial=demo00000003",
                "samples",
                "samples/2",
                "samples/2/label",
                "take-in",
                "trials/demo00000012")) {
            page.navigate(server.url() + path);
            page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true; })");
            Axe.check(page, path);
            Object wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");
            assertThat(((Number) wide).intValue()).as(path).isLessThanOrEqualTo(0);
        }
        page.context().close();
    }
}
