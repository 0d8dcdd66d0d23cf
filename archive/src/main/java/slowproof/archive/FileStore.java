package slowproof.archive;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.time.Instant;
import java.util.HexFormat;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Files named after their SHA-256, in folders of its first two digits. A file appears whole or not at all, is on the
 * disk when its name is told, and is read-only from then on.
 */
final class FileStore {
    private static final Pattern SHA256 = Pattern.compile("[0-9a-f]{64}");
    private static final String DRAFT = "draft-";

    /** A draft as old as this belongs to a program that was stopped while it wrote. */
    private static final Duration LONGEST_WRITING = Duration.ofDays(1);

    private final Path folder;

    FileStore(Path folder) {
        this.folder = folder;
    }

    /** Keeps what a stream holds, to its end; the stream is not closed. */
    String keep(InputStream content) {
        try {
            Files.createDirectories(folder);
            Path draft = Files.createTempFile(folder, DRAFT, ".tmp");
            try {
                String name = write(content, draft);
                Path shelf = shelf(name);
                Path target = shelf.resolve(name);
                if (Files.exists(target)) {
                    return name;
                }
                if (!Files.exists(shelf)) {
                    Files.createDirectories(shelf);
                    force(folder);
                }
                if (!draft.toFile().setReadOnly()) {
                    throw new IOException(draft + " cannot be made read-only");
                }
                Files.move(draft, target, StandardCopyOption.ATOMIC_MOVE);
                force(shelf);
                return name;
            } finally {
                Files.deleteIfExists(draft);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String write(InputStream content, Path draft) throws IOException {
        DigestInputStream digested = new DigestInputStream(content, sha256());
        try (FileChannel channel = FileChannel.open(draft, StandardOpenOption.WRITE)) {
            OutputStream out = Channels.newOutputStream(channel);
            digested.transferTo(out);
            channel.force(true);
        }
        return HexFormat.of().formatHex(digested.getMessageDigest().digest());
    }

    /** A file is there after a power cut only when its folder has been written too. */
    private static void force(Path directory) throws IOException {
        try (FileChannel channel = FileChannel.open(directory, StandardOpenOption.READ)) {
            channel.force(true);
        }
    }

    /** Returns the folder for what is not kept yet; its name is none that a kept file has. */
    Path arriving() {
        return folder.resolve("arriving");
    }

    Optional<Path> find(String name) {
        if (!SHA256.matcher(name).matches()) {
            return Optional.empty();
        }
        Path target = shelf(name).resolve(name);
        return Files.isRegularFile(target) ? Optional.of(target) : Optional.empty();
    }

    /** Removes what programs left behind that were stopped while they wrote. */
    void tidy(Instant now) {
        try (Stream<Path> all = Files.list(folder)) {
            for (Path path : all.toList()) {
                if (path.getFileName().toString().startsWith(DRAFT)
                        && Files.getLastModifiedTime(path).toInstant().isBefore(now.minus(LONGEST_WRITING))) {
                    Files.deleteIfExists(path);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private Path shelf(String name) {
        return folder.resolve(name.substring(0, 2));
    }

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
