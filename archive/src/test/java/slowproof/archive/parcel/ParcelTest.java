package slowproof.archive.parcel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Clock;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import slowproof.archive.Archive;
import slowproof.archive.EventKind;
import slowproof.archive.NewEvent;
import slowproof.archive.Sending;
import slowproof.archive.TakenIn;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.ReleasedAnswer;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.typed.Typed;

/** A trial travels from archive to archive; what is not such a trial is refused and leaves no trace. */
class ParcelTest {
    private static final byte[] PHOTO = {(byte) 0x89, 'P', 'N', 'G', 1, 2, 3};

    @TempDir
    Path folder;

    private Archive from;
    private Archive to;
    private String trial;

    @BeforeEach
    void record() {
        from = Archive.open(folder.resolve("from"), Clock.systemUTC());
        to = Archive.open(folder.resolve("to"), Clock.systemUTC());
        trial = from.start("ines", List.of(title("  Felt,\t\"µm\" ½ <b>\n\u0000")));
        NewEvent photo = NewEvent.of(
                EventKind.PHOTO,
                "sha256",
                from.keepFile(PHOTO),
                "name",
                "../bench 1.png",
                "type",
                "image/png",
                "bytes",
                "7");
        from.append(trial, Sending.of("t1", "jon", List.of(photo, title("two"))));
    }

    @AfterEach
    void close() {
        from.close();
        to.close();
    }

    private static NewEvent title(String text) {
        return Sheet.noting(
                FactName.TITLE,
                new Typed(text, Typed.NOTHING.mark(), Typed.NOTHING.lengthUnit(), Typed.NOTHING.speedUnit()));
    }

    @Test
    void releasedAnswersTravelWithTheirTrial() throws Exception {
        byte[] pdf = "%PDF-1.7 the answer".getBytes(StandardCharsets.US_ASCII);
        from.append(
                trial,
                Sending.of(
                        "",
                        "ines",
                        List.of(ReleasedAnswer.releasing(
                                from.keepFile(pdf),
                                "felt-answer-1.pdf",
                                pdf.length,
                                new ReleasedAnswer.Subject("de", "pdf", "felt", "?material=felt"),
                                new ReleasedAnswer.Release("Ines Example", "2026-11-26", ""),
                                null))));
        takeIn(parcel());
        ReleasedAnswer answer = ReleasedAnswer.of(to.events(trial)).get(0);
        assertThat(answer).isEqualTo(ReleasedAnswer.of(from.events(trial)).get(0));
        assertThat(Files.readAllBytes(to.file(answer.sha256()).orElseThrow())).isEqualTo(pdf);
        assertThat(parcel(to)).isEqualTo(parcel(from));
    }

    private byte[] parcel() throws IOException {
        return parcel(from);
    }

    private byte[] parcel(Archive archive) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        Map<String, byte[]> derived = Map.of("trial.yaml", "title: two\n".getBytes(StandardCharsets.UTF_8));
        ParcelWriter.write(archive, trial, archive.recorded(trial), "0.1.0 (abc)", derived, bytes);
        return bytes.toByteArray();
    }

    private TakenIn takeIn(byte[] parcel) throws IOException, ParcelRefusedException {
        Path file = folder.resolve("parcel.zip");
        Files.write(file, parcel);
        return ParcelReader.takeIn(file, to);
    }

    private ParcelRefusedException refused(byte[] parcel) throws IOException {
        ParcelRefusedException refusal = catchThrowableOfType(ParcelRefusedException.class, () -> takeIn(parcel));
        assertThat(to.trials("", 0, 10)).isEmpty();
        try (Stream<Path> kept = Files.walk(folder.resolve("to/files"))) {
            assertThat(kept.filter(Files::isRegularFile))
                    .as("files left behind")
                    .isEmpty();
        }
        return refusal;
    }

    private static Map<String, byte[]> entries(byte[] parcel) throws IOException {
        Map<String, byte[]> entries = new LinkedHashMap<>();
        try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(parcel))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                entries.put(entry.getName(), zip.readAllBytes());
            }
        }
        return entries;
    }

    private static byte[] zip(Map<String, byte[]> entries) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
            for (Map.Entry<String, byte[]> entry : entries.entrySet()) {
                zip.putNextEntry(new ZipEntry(entry.getKey()));
                zip.write(entry.getValue());
            }
        }
        return bytes.toByteArray();
    }

    private static String sha256(byte[] content) throws Exception {
        return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(content));
    }

    /** Replaces an entry and makes the manifest true to it. */
    private byte[] with(String path, byte[] content) throws Exception {
        Map<String, byte[]> entries = entries(parcel());
        byte[] old = entries.put(path, content);
        String manifest = new String(entries.get("manifest.json"), StandardCharsets.UTF_8)
                .replace(sha256(old), sha256(content))
                .replaceAll("(?s)(\"path\" : \"" + path + "\".*?\"bytes\" : )[0-9]+", "$1" + content.length);
        entries.put("manifest.json", manifest.getBytes(StandardCharsets.UTF_8));
        return zip(entries);
    }

    private byte[] withEvents(String found, String other) throws Exception {
        String events = new String(entries(parcel()).get("events.json"), StandardCharsets.UTF_8);
        assertThat(events).contains(found);
        return with("events.json", events.replace(found, other).getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void roundTripGivesIdenticalEventsFilesAndBytes() throws Exception {
        TakenIn taken = takeIn(parcel());
        assertThat(taken).isEqualTo(new TakenIn(trial, TakenIn.Outcome.NEW, 4));
        assertThat(to.recorded(trial)).isEqualTo(from.recorded(trial));
        assertThat(to.sheet(trial)).usingRecursiveComparison().isEqualTo(from.sheet(trial));
        assertThat(to.trials("", 0, 1)).isEqualTo(from.trials("", 0, 1));
        assertThat(Files.readAllBytes(to.file(sha256(PHOTO)).orElseThrow())).isEqualTo(PHOTO);
        assertThat(parcel(to)).isEqualTo(parcel());
    }

    @Test
    void entriesAreNamedSafelyWhateverAFileWasCalled() throws Exception {
        assertThat(entries(parcel()).keySet())
                .containsExactly(
                        "manifest.json",
                        "events.json",
                        "raw/" + sha256(PHOTO).substring(0, 16) + "-.._bench_1.png",
                        "trial.yaml");
    }

    @Test
    void trialThatGrewIsAddedToAndOneThatIsHereStays() throws Exception {
        takeIn(parcel());
        assertThat(takeIn(parcel()).outcome()).isEqualTo(TakenIn.Outcome.SAME);
        from.append(trial, "", List.of(title("three")));
        assertThat(takeIn(parcel())).isEqualTo(new TakenIn(trial, TakenIn.Outcome.GROWN, 5));
        assertThat(to.recorded(trial)).isEqualTo(from.recorded(trial));
        to.append(trial, "", List.of(title("four")));
        assertThat(takeIn(parcel()).outcome()).isEqualTo(TakenIn.Outcome.SAME);
        assertThat(to.sheet(trial).title()).isEqualTo("four");
    }

    @Test
    void trialThatWentOnDifferentlyIsRefused() throws Exception {
        takeIn(parcel());
        from.append(trial, "", List.of(title("here")));
        to.append(trial, "", List.of(title("there")));
        ParcelRefusedException refusal = catchThrowableOfType(ParcelRefusedException.class, () -> takeIn(parcel()));
        assertThat(refusal.key()).isEqualTo("parcel.differs");
        assertThat(refusal.arguments()).containsExactly(trial, 5L);
        assertThat(to.sheet(trial).title()).isEqualTo("there");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "../out.txt",
                "/etc/cron.d/x",
                "raw/../../x",
                "raw\\..\\x",
                "C:x",
                ".hidden",
                "a//b",
                "x\u0000",
                "raw/"
            })
    void namesThatLeadElsewhereAreRefused(String name) throws Exception {
        Map<String, byte[]> entries = entries(parcel());
        entries.put(name, new byte[] {1});
        assertThat(refused(zip(entries)).key()).isEqualTo("parcel.name");
    }

    @Test
    void whatGrowsToManyTimesItsSizeIsRefused() throws Exception {
        byte[] bomb = with("trial.yaml", new byte[64 << 20]);
        assertThat(bomb.length).isLessThan(1 << 20);
        assertThat(refused(bomb).key()).isEqualTo("parcel.bomb");
    }

    @Test
    void entryLargerThanItsManifestSaysIsNotReadToItsEnd() throws Exception {
        Map<String, byte[]> entries = entries(parcel());
        entries.put("trial.yaml", new byte[64 << 20]);
        ParcelRefusedException refusal = refused(zip(entries));
        assertThat(refusal.key()).isEqualTo("parcel.hash");
        assertThat(refusal.arguments()).containsExactly("trial.yaml");
    }

    @Test
    void everyChangedByteOfAnEntryIsFound() throws Exception {
        for (String path : List.of("events.json", "trial.yaml")) {
            Map<String, byte[]> entries = entries(parcel());
            byte[] content = entries.get(path).clone();
            content[content.length / 2] ^= 1;
            entries.put(path, content);
            assertThat(refused(zip(entries)).arguments()).as(path).containsExactly(path);
        }
    }

    @Test
    void halfTrialsAreRefused() throws Exception {
        for (String path : List.copyOf(entries(parcel()).keySet())) {
            Map<String, byte[]> entries = entries(parcel());
            entries.remove(path);
            assertThat(refused(zip(entries)).key())
                    .as(path)
                    .isEqualTo(path.equals("manifest.json") ? "parcel.no_manifest" : "parcel.half");
        }
        String other = "0".repeat(64);
        assertThat(refused(withEvents(sha256(PHOTO), other)).arguments()).containsExactly(other);
        Map<String, byte[]> more = entries(parcel());
        more.put("more.txt", new byte[] {1});
        assertThat(refused(zip(more)).key()).isEqualTo("parcel.not_listed");
    }

    @Test
    void eventsThatMakeNoTrialAreRefused() throws Exception {
        assertThat(refused(withEvents("\"kind\":\"photo\"", "\"kind\":\"smell\""))
                        .key())
                .isEqualTo("parcel.event_kind");
        assertThat(refused(withEvents("\"seq\":3", "\"seq\":4")).key()).isEqualTo("parcel.event");
        assertThat(refused(withEvents("\"kind\":\"started\"", "\"kind\":\"fact\""))
                        .key())
                .isEqualTo("parcel.event");
        assertThat(refused(withEvents("\"bytes\":\"7\"", "\"bytes\":\"seven\"")).key())
                .isEqualTo("parcel.no_trial");
        assertThat(refused(withEvents("\"fields\":{}", "\"fields\":7")).key()).isEqualTo("parcel.event");
        assertThat(refused(with("events.json", "[{".getBytes(StandardCharsets.UTF_8)))
                        .key())
                .isEqualTo("parcel.json");
    }

    @Test
    void manifestOfALaterFormIsNamed() throws Exception {
        Map<String, byte[]> entries = entries(parcel());
        String manifest = new String(entries.get("manifest.json"), StandardCharsets.UTF_8);
        entries.put(
                "manifest.json",
                manifest.replace("trial-parcel/1", "trial-parcel/2").getBytes(StandardCharsets.UTF_8));
        ParcelRefusedException refusal = refused(zip(entries));
        assertThat(refusal.key()).isEqualTo("parcel.schema");
        assertThat(refusal.arguments()).containsExactly("trial-parcel/2", "trial-parcel/1");
    }

    @Test
    void brokenAndForeignFilesAreRefused() throws Exception {
        byte[] whole = parcel();
        assertThat(refused("no zip".getBytes(StandardCharsets.UTF_8)).key()).isEqualTo("parcel.not_zip");
        for (int length = 0; length < whole.length; length += 7) {
            assertThat(refused(Arrays.copyOf(whole, length)))
                    .as("cut to %d bytes", length)
                    .isNotNull();
        }
        assertThat(refused(zip(Map.of("a.txt", new byte[] {1}))).key()).isEqualTo("parcel.no_manifest");
    }

    @Test
    void secondEntryOfTheSameNameIsRefused() throws Exception {
        Map<String, byte[]> entries = entries(parcel());
        entries.put("trial.yamm", "other".getBytes(StandardCharsets.UTF_8));
        String raw = new String(zip(entries), StandardCharsets.ISO_8859_1).replace("trial.yamm", "trial.yaml");
        assertThat(refused(raw.getBytes(StandardCharsets.ISO_8859_1)).key()).isEqualTo("parcel.twice");
    }
}
