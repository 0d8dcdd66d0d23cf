package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.Archive;

/** A trial is taken along on one server and taken in on another. */
class TakeInPageTest {
    @TempDir
    static Path folder;

    private static Server from;
    private static Server to;

    @BeforeAll
    static void start() {
        from = Server.start(folder.resolve("from"), 0);
        to = Server.start(folder.resolve("to"), 0);
    }

    @AfterAll
    static void stop() {
        from.close();
        to.close();
    }

    private static HttpResponse<String> send(byte[] parcel) {
        Visitor visitor = new Visitor(to.url());
        byte[] head = ("--frontier\r\nContent-Disposition: form-data; name=\"parcel\"; filename=\"trial.zip\"\r\n"
                        + "Content-Type: application/zip\r\n\r\n")
                .getBytes(StandardCharsets.UTF_8);
        byte[] foot = "\r\n--frontier--\r\n".getBytes(StandardCharsets.UTF_8);
        return visitor.send(visitor.request("/take-in")
                .header("Origin", to.url().substring(0, to.url().length() - 1))
                .header("Content-Type", "multipart/form-data; boundary=frontier")
                .POST(HttpRequest.BodyPublishers.ofByteArrays(List.of(head, parcel, foot)))
                .build());
    }

    private static String trial(Visitor visitor) {
        String trial = visitor.newTrial();
        visitor.post(trial + "/series", "speed", "50", "from", "0", "to", "600", "surface", "acoustic felt");
        for (String reading : List.of("0.0", "600.6", "0.3")) {
            visitor.post(trial + "/readings", "reading", reading);
        }
        visitor.post(trial + "/facts", "fact_title", "=1+1", "fact_notes", "@home");
        return trial;
    }

    @Test
    void trialTakenAlongIsTakenInWithEverything() {
        Visitor visitor = new Visitor(from.url());
        String trial = trial(visitor);
        byte[] parcel = visitor.bytes(trial + "/trial.zip").body();
        assertThat(visitor.bytes(trial + "/trial.zip").body())
                .as("the same bytes again")
                .isEqualTo(parcel);
        HttpResponse<String> page = send(parcel);
        assertThat(page.uri().getPath()).isEqualTo(trial);
        assertThat(page.body()).contains("=1+1").contains("600.6");
        assertThat(send(parcel).uri().getPath()).as("once more").isEqualTo(trial);
        String id = trial.substring("/trials/".length());
        try (Archive here = Archive.open(folder.resolve("to"), Clock.systemUTC());
                Archive there = Archive.open(folder.resolve("from"), Clock.systemUTC())) {
            assertThat(here.recorded(id)).isEqualTo(there.recorded(id));
        }
        assertThat(new Visitor(to.url()).bytes(trial + "/trial.zip").body()).isEqualTo(parcel);
    }

    @Test
    void historyHoldsNoFormula() throws Exception {
        Visitor visitor = new Visitor(from.url());
        byte[] parcel = visitor.bytes(trial(visitor) + "/trial.zip").body();
        try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(parcel))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                if (entry.getName().endsWith(".csv")) {
                    String table = new String(zip.readAllBytes(), StandardCharsets.UTF_8);
                    // a cell that begins with one of these is a formula to a spreadsheet
                    assertThat(table).as(entry.getName()).doesNotContainPattern("(?m)(^|,)\"?[=@+]");
                }
            }
        }
    }

    @Test
    void emptyTrialCanBeTakenAlongToo() {
        Visitor visitor = new Visitor(from.url());
        String trial = visitor.newTrial();
        assertThat(visitor.get(trial).body()).contains("/trial.zip").doesNotContain("findings.xlsx");
        assertThat(send(visitor.bytes(trial + "/trial.zip").body()).uri().getPath())
                .isEqualTo(trial);
    }

    @Test
    void whatIsNoTrialIsSaidBesideTheField() {
        HttpResponse<String> refused = send("no zip".getBytes(StandardCharsets.UTF_8));
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body()).contains("id=\"parcel-problem\">This is no whole ZIP file");
        assertThat(send(new byte[0]).body()).contains("Choose a file first");
    }
}
