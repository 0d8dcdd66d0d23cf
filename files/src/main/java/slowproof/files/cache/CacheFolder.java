package slowproof.files.cache;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.UUID;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A folder of kept files. Each is written beside its place and then moved there, so nobody ever sees half of one;
 * each carries a checksum, so a spoiled one is noticed, removed and made anew. The folder can be deleted at any time.
 *
 * <p>A failure of the folder (no rights, a full disk) is never an error of the evaluation: nothing is kept then.
 */
public final class CacheFolder {
    /** Raw files below this size are read again: that is as quick. */
    public static final long WORTHWHILE = 8L << 20;

    /** Keeps nothing and finds nothing. */
    public static final CacheFolder NONE = new CacheFolder(null, 0, "");

    private static final long USUAL_LIMIT = 4L << 30;
    private static final long ABANDONED_MS = 24 * 3600 * 1000L;

    private final @Nullable Path folder;
    private final Queue<Thread> writers = new ConcurrentLinkedQueue<>();
    private final long limit;
    private final String program;

    private CacheFolder(@Nullable Path folder, long limit, String program) {
        this.folder = folder;
        this.limit = limit;
        this.program = program;
    }

    /**
     * Returns a cache in a folder.
     *
     * @param folder where; made when it is needed
     * @param limit bytes to keep at most, above zero; the longest unused go first
     * @param program what made the kept results: results of another program are not found
     */
    public static CacheFolder in(Path folder, long limit, String program) {
        return new CacheFolder(folder, limit, program);
    }

    /**
     * Returns the user's cache: the folder named by {@code SLOWPROOF_CACHE}, or {@code slowproof-recordings} in the
     * folder for caches ({@code XDG_CACHE_HOME}, else {@code .cache} in the user's home); {@link #NONE} when
     * {@code SLOWPROOF_CACHE} says {@code off} or there is no home.
     *
     * @param environment environment of the process
     * @param program version of the program
     */
    public static CacheFolder ofUser(Map<String, String> environment, String program) {
        String chosen = environment.getOrDefault("SLOWPROOF_CACHE", "");
        if (chosen.equals("off")) {
            return NONE;
        }
        if (!chosen.isEmpty()) {
            return in(Path.of(chosen), USUAL_LIMIT, program);
        }
        String caches = environment.getOrDefault("XDG_CACHE_HOME", "");
        String home = environment.getOrDefault("HOME", "");
        if (caches.startsWith("/")) {
            return in(Path.of(caches, "slowproof-recordings"), USUAL_LIMIT, program);
        }
        return home.startsWith("/") ? in(Path.of(home, ".cache", "slowproof-recordings"), USUAL_LIMIT, program) : NONE;
    }

    /** Returns true when a raw file is large enough to keep what is made of it. */
    public boolean worthwhile(Path raw) {
        try {
            return folder != null && Files.size(raw) >= WORTHWHILE;
        } catch (IOException e) {
            return false;
        }
    }

    /** Returns where working files may lie: this folder, or that for temporary files where nothing can be kept. */
    public Path scratch() {
        Path own = folder;
        if (own != null) {
            try {
                make(own);
                return own;
            } catch (IOException | UnsupportedOperationException e) {
                // as with everything that is kept, another place must do
            }
        }
        return Path.of(System.getProperty("java.io.tmpdir", "/tmp"));
    }

    /** Returns what made the kept results. */
    public String program() {
        return program;
    }

    /** Returns the name under which something is kept, from everything that it depends on. */
    public static String key(String... parts) {
        MessageDigest digest = sha256();
        for (String part : parts) {
            digest.update(part.getBytes(StandardCharsets.UTF_8));
            digest.update((byte) 0);
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** Reads what is kept; throws for anything that is not as it was written. */
    @FunctionalInterface
    public interface Reading<T> {
        /**
         * Reads the kept file.
         *
         * @throws IOException if it is not whole
         */
        T from(FileChannel channel) throws IOException;
    }

    /** Writes what is to be kept. */
    @FunctionalInterface
    public interface Writing {
        /**
         * Writes the file.
         *
         * @throws IOException if it cannot be written
         */
        void to(FileChannel channel) throws IOException;
    }

    /** Returns what is kept under a name, or null when there is nothing or it is spoiled; a spoiled file is removed. */
    public <T> @Nullable T get(String name, Reading<T> reading) {
        if (folder == null) {
            return null;
        }
        Path file = folder.resolve(name);
        if (!Files.isRegularFile(file)) {
            return null;
        }
        try (FileChannel channel = FileChannel.open(file)) {
            T value = reading.from(channel);
            Files.setLastModifiedTime(file, FileTime.fromMillis(System.currentTimeMillis()));
            return value;
        } catch (IOException | RuntimeException e) {
            remove(file);
            return null;
        }
    }

    /** Does as {@link #put} while others go on; what is to be kept must not change any more. */
    public void putMeanwhile(String name, Writing writing) {
        if (folder != null) {
            Thread writer = new Thread(() -> put(name, writing), "cache writer");
            writer.setDaemon(true);
            writers.add(writer);
            writer.start();
        }
    }

    /** Waits for everything that is being written. */
    public void finish() {
        for (Thread writer = writers.poll(); writer != null; writer = writers.poll()) {
            try {
                writer.join();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
        }
    }

    /** Keeps something under a name, unless the folder does not allow it. */
    public void put(String name, Writing writing) {
        if (folder == null) {
            return;
        }
        Path part = folder.resolve(name + "." + UUID.randomUUID() + ".part");
        try {
            make(folder);
            try (FileChannel channel =
                    FileChannel.open(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
                writing.to(channel);
            }
            Files.move(part, folder.resolve(name), StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
            prune(folder);
        } catch (IOException | UnsupportedOperationException e) {
            remove(part);
        }
    }

    /**
     * Notes that all that was made of the large files of a trial is kept, so that whoever starts the program next time knows
     * beforehand that there is little to do. The note bears the trial's path, with percent signs for the slashes; its lines
     * name what is kept.
     *
     * @param trial the trial file
     * @param names names under which something is kept, at least one
     */
    public void noteKept(Path trial, List<String> names) {
        try {
            String name = trial.toRealPath().toString().replace('/', '%') + ".seen";
            if (folder != null && renewed(folder.resolve(name), names)) {
                return;
            }
            byte[] lines = (String.join("\n", names) + "\n").getBytes(StandardCharsets.UTF_8);
            put(name, channel -> channel.write(ByteBuffer.wrap(lines)));
        } catch (IOException e) {
            // without the note the next start takes a little longer
        }
    }

    /** Sets the time of a note to now where it says the same already; false where a new one is needed. */
    private static boolean renewed(Path note, List<String> names) {
        try {
            if (!Files.isRegularFile(note) || !Files.readAllLines(note).equals(names)) {
                return false;
            }
            Files.setLastModifiedTime(note, FileTime.fromMillis(System.currentTimeMillis()));
            return true;
        } catch (IOException e) {
            // spoiled, or somebody else's
            return false;
        }
    }

    private static void make(Path folder) throws IOException {
        if (Files.isDirectory(folder)) {
            return;
        }
        Files.createDirectories(folder);
        // what was measured for one customer is nobody else's business on this machine
        if (Files.getFileStore(folder).supportsFileAttributeView("posix")) {
            Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwx------"));
        }
    }

    private static void remove(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            // what cannot be removed is read again and found spoiled again
        }
    }

    private record Kept(Path file, long size, long usedMs) {}

    private void prune(Path in) throws IOException {
        List<Kept> kept = new ArrayList<>();
        long total = 0;
        long now = System.currentTimeMillis();
        try (Stream<Path> files = Files.list(in)) {
            for (Path file : (Iterable<Path>) files::iterator) {
                BasicFileAttributes facts;
                try {
                    facts = Files.readAttributes(file, BasicFileAttributes.class);
                } catch (IOException e) {
                    continue;
                }
                long used = facts.lastModifiedTime().toMillis();
                if (file.toString().endsWith(".part") && now - used > ABANDONED_MS) {
                    remove(file);
                } else if (facts.isRegularFile()) {
                    kept.add(new Kept(file, facts.size(), used));
                    total += facts.size();
                }
            }
        }
        kept.sort(Comparator.comparingLong(Kept::usedMs));
        for (Kept one : kept) {
            if (total <= limit) {
                return;
            }
            remove(one.file());
            total -= one.size();
        }
    }
}
