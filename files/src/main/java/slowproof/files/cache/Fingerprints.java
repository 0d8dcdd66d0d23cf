package slowproof.files.cache;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * Remembers the SHA-256 of raw files by path, size, time of change in nanoseconds and inode, so that a file that
 * nobody touched is not read for its fingerprint again. Whoever changes bytes of a file, keeps its size and sets its
 * time back deceives this; a file changed within the last two seconds is not remembered, since clocks of file systems
 * are coarse.
 */
public final class Fingerprints {
    private static final long SETTLED_MS = 2000;

    private final CacheFolder cache;

    /** Creates the memory of a cache. */
    public Fingerprints(CacheFolder cache) {
        this.cache = cache;
    }

    /** Returns what tells a file apart without reading it, or null when the system does not say. */
    public @Nullable String facts(Path file) {
        try {
            BasicFileAttributes facts = Files.readAttributes(file, BasicFileAttributes.class);
            long age = System.currentTimeMillis() - facts.lastModifiedTime().toMillis();
            if (facts.fileKey() == null || age < SETTLED_MS) {
                return null;
            }
            return file.toRealPath() + "\n" + facts.size() + "\n"
                    + facts.lastModifiedTime().to(TimeUnit.NANOSECONDS) + "\n" + facts.fileKey();
        } catch (IOException e) {
            return null;
        }
    }

    /** Returns the SHA-256 of a file in hexadecimal digits, or null when it is not known. */
    public @Nullable String known(Path file) {
        String facts = cache.worthwhile(file) ? facts(file) : null;
        if (facts == null) {
            return null;
        }
        return cache.get(name(facts), channel -> {
            DataInputStream in = Checked.read(channel);
            if (!in.readUTF().equals(facts)) {
                throw new IOException("of another file");
            }
            return in.readUTF();
        });
    }

    /**
     * Remembers the SHA-256 of a file.
     *
     * @param before what {@link #facts} said before the file was read; nothing is remembered when it says otherwise now
     */
    public void remember(Path file, @Nullable String before, String sha256) {
        if (before == null || !cache.worthwhile(file) || !before.equals(facts(file))) {
            return;
        }
        cache.put(
                name(before),
                channel -> Checked.write(channel, out -> {
                    out.writeUTF(before);
                    out.writeUTF(sha256);
                }));
    }

    private static String name(String facts) {
        return CacheFolder.key("fingerprint/1", facts) + ".hash";
    }

    /** Returns the SHA-256 of a file by reading it, or null when it cannot be read. */
    public static @Nullable String of(Path file) {
        MessageDigest digest = CacheFolder.sha256();
        try (InputStream in = Files.newInputStream(file)) {
            byte[] buffer = new byte[1 << 16];
            for (int read = in.read(buffer); read >= 0; read = in.read(buffer)) {
                digest.update(buffer, 0, read);
            }
            return HexFormat.of().formatHex(digest.digest());
        } catch (IOException e) {
            return null;
        }
    }
}
