package slowproof.archive;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Optional;
import java.util.regex.Pattern;

/** Files named after their SHA-256, in folders of its first two digits. A file appears whole or not at all. */
final class FileStore {
    private static final Pattern SHA256 = Pattern.compile("[0-9a-f]{64}");

    private final Path folder;

    FileStore(Path folder) {
        this.folder = folder;
    }

    String keep(byte[] content) {
        String name = sha256(content);
        Path target = target(name);
        if (Files.exists(target)) {
            return name;
        }
        try {
            Files.createDirectories(target.getParent());
            Path draft = Files.createTempFile(folder, "draft-", ".tmp");
            try (FileChannel channel = FileChannel.open(draft, StandardOpenOption.WRITE)) {
                ByteBuffer bytes = ByteBuffer.wrap(content);
                while (bytes.hasRemaining()) {
                    channel.write(bytes);
                }
                channel.force(true);
            }
            Files.move(draft, target, StandardCopyOption.ATOMIC_MOVE);
            return name;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    Optional<Path> find(String name) {
        if (!SHA256.matcher(name).matches()) {
            return Optional.empty();
        }
        Path target = target(name);
        return Files.isRegularFile(target) ? Optional.of(target) : Optional.empty();
    }

    private Path target(String name) {
        return folder.resolve(name.substring(0, 2)).resolve(name);
    }

    private static String sha256(byte[] content) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(content));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
