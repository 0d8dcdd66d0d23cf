package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import slowproof.wording.Wording;

class UploadStoreTest {
    private static final String ID = "0123456789abcdef0123456789abcdef";

    @TempDir
    Path folder;

    private UploadStore store(long limit) {
        return new UploadStore(() -> folder.resolve("arriving"), limit);
    }

    private static UploadStore.Log take(UploadStore store, String name, String content)
            throws IOException, UploadRefusedException {
        return store.take(ID, name, -1, new ByteArrayInputStream(content.getBytes(StandardCharsets.UTF_8)));
    }

    private List<Path> files() throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(Files::isRegularFile).toList();
        }
    }

    @Test
    void whatWasSentIsKeptUnchangedWithItsNameAndFingerprint() throws Exception {
        UploadStore store = store(1000);
        take(store, "run.csv", "a,b\n1,2\n");
        UploadStore.Log second = take(store, "run.csv", "other");
        assertThat(store.logs(ID)).extracting(UploadStore.Log::name).containsExactly("run.csv", "run-2.csv");
        assertThat(Files.readString(store.logs(ID).get(0).path())).isEqualTo("a,b\n1,2\n");
        // printf other | sha256sum
        assertThat(second.sha256()).isEqualTo("d9298a10d1b0735837dc4bd85dac641b0f3cef27a47e5d53a54f2f3f5b2fcffa");
        store.remove(ID, 1);
        assertThat(store.logs(ID)).containsExactly(second);
        store.removeAll(ID);
        assertThat(files()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"../../etc/passwd", "..\\..\\passwd", "/etc/passwd", "C:\\logs\\passwd", "a/../passwd"})
    void aNameThatPointsElsewhereIsOnlyAName(String name) throws Exception {
        take(store(1000), name, "content");
        assertThat(store(1000).logs(ID)).extracting(UploadStore.Log::name).containsExactly("passwd");
        assertThat(files())
                .allMatch(file -> file.startsWith(folder.resolve("arriving").resolve(ID)));
    }

    @Test
    void namesWithoutLettersOrWithControlCharactersAreMended() {
        assertThat(UploadStore.plain("..")).isEqualTo("log");
        assertThat(UploadStore.plain("")).isEqualTo("log");
        assertThat(UploadStore.plain("a\u0000b\n\u202ec.csv")).isEqualTo("abc.csv");
        assertThat(UploadStore.plain("x".repeat(500) + ".csv")).hasSize(120).endsWith(".csv");
    }

    @Test
    void aSendingThatIsNoneIsRefused() {
        for (String id : List.of("", "..", "../" + ID, ID.toUpperCase(Locale.ROOT), ID + "0")) {
            assertThatThrownBy(() -> store(1000).take(id, "run.csv", 1, InputStream.nullInputStream()))
                    .isInstanceOf(UploadRefusedException.class);
            assertThat(store(1000).logs(id)).isEmpty();
        }
    }

    @Test
    void tooMuchIsRefusedWhetherItWasAnnouncedOrNotAndLeavesNothing() throws Exception {
        UploadStore store = store(10);
        take(store, "one", "12345678");
        assertThatThrownBy(() -> take(store, "two", "123"))
                .isInstanceOfSatisfying(
                        UploadRefusedException.class,
                        e -> assertThat(e.sentence(Wording.of(Locale.ENGLISH).withPages()))
                                .contains("larger than"));
        assertThatThrownBy(() -> store.take(ID, "three", 3, InputStream.nullInputStream()))
                .isInstanceOf(UploadRefusedException.class);
        assertThatThrownBy(() -> take(store, "four", "")).isInstanceOf(UploadRefusedException.class);
        assertThat(store.logs(ID)).extracting(UploadStore.Log::name).containsExactly("one");
        assertThat(files()).hasSize(2);
    }

    @Test
    void whatBreaksOffLeavesNothing() throws IOException {
        InputStream broken = new InputStream() {
            @Override
            public int read() throws IOException {
                throw new IOException("the line is cut");
            }

            @Override
            public int read(byte[] target, int from, int length) throws IOException {
                return read();
            }
        };
        assertThatThrownBy(() -> store(1000).take(ID, "run.csv", 100, broken)).isInstanceOf(IOException.class);
        assertThat(files()).isEmpty();
    }

    @Test
    void whatNobodyTouchedForTwoDaysGoes() throws Exception {
        UploadStore store = store(1000);
        take(store, "run.csv", "content");
        Instant now = Instant.now();
        store.tidy(now);
        assertThat(store.logs(ID)).hasSize(1);
        Files.setLastModifiedTime(
                store.folder(ID).orElseThrow(),
                FileTime.from(now.minus(Duration.ofDays(2).plusMinutes(1))));
        store.tidy(now);
        assertThat(files()).isEmpty();
    }
}
