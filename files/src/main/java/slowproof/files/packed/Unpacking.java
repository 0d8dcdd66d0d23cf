package slowproof.files.packed;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Enumeration;
import java.util.zip.GZIPInputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;

/**
 * Unpacks gzip and looks into zip archives, both with a bound: a file may hold 64 MiB, and 200 times its own size on
 * top. Logs shrink to a tenth or a thirtieth; only files made to do harm shrink to less than a two-hundredth.
 */
public final class Unpacking {
    private static final long ALWAYS = 64L << 20;
    private static final long TIMES = 200;
    private static final int MOST_ENTRIES = 10_000;

    /** The words of a workbook are held in memory. */
    private static final String WORDS = "xl/sharedStrings.xml";

    private static final long MOST_WORDS = 256L << 20;
    private static final int BUFFER = 1 << 16;

    private Unpacking() {}

    /** Returns how much a packed file may hold, in bytes. */
    public static long limit(long packedBytes) {
        return ALWAYS + TIMES * packedBytes;
    }

    /**
     * Returns the content of a gzip stream; reading beyond the bound throws {@link UnpackLimitException}.
     *
     * @param packed packed bytes
     * @param packedBytes size of the packed file in bytes
     * @throws IOException if it is no gzip
     */
    public static InputStream gunzip(InputStream packed, long packedBytes) throws IOException {
        long limit = limit(packedBytes);
        return new CountedInput(new GZIPInputStream(packed, BUFFER), passed -> {
            if (passed > limit) {
                throw new UnpackLimitException(limit);
            }
        });
    }

    /**
     * Reads through a zip archive and keeps nothing.
     *
     * @throws UnpackLimitException if it holds too much
     * @throws IOException if it cannot be read
     */
    public static void checkArchive(Path path) throws IOException {
        long limit = limit(Files.size(path));
        byte[] scratch = new byte[BUFFER];
        long total = 0;
        try (ZipFile archive = new ZipFile(path.toFile())) {
            if (archive.size() > MOST_ENTRIES) {
                throw new UnpackLimitException(limit);
            }
            for (Enumeration<? extends ZipEntry> all = archive.entries(); all.hasMoreElements(); ) {
                ZipEntry entry = all.nextElement();
                long bound = entry.getName().equals(WORDS) ? Math.min(limit, total + MOST_WORDS) : limit;
                try (InputStream content = archive.getInputStream(entry)) {
                    for (int read = content.read(scratch); read >= 0; read = content.read(scratch)) {
                        total += read;
                        if (total > bound) {
                            throw new UnpackLimitException(bound);
                        }
                    }
                }
            }
        }
    }
}
