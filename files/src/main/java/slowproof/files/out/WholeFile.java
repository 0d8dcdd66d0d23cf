package slowproof.files.out;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** Writes a file whole or not at all: beside it first, then moved into its place. */
public final class WholeFile {
    /** Writes the content to a stream. */
    @FunctionalInterface
    public interface Content {
        /**
         * Writes everything.
         *
         * @throws IOException if the stream fails
         */
        void writeTo(OutputStream stream) throws IOException;
    }

    private WholeFile() {}

    /**
     * Writes a file; one of that name is replaced.
     *
     * @param target where to
     * @param content what
     * @throws IOException if it cannot be written; the file that was there before is then still there
     */
    public static void write(Path target, Content content) throws IOException {
        Path absolute = target.toAbsolutePath();
        Path folder = absolute.getParent();
        Path part = Files.createTempFile(folder == null ? absolute : folder, ".slowproof-", ".part");
        try {
            try (OutputStream stream = Files.newOutputStream(part)) {
                content.writeTo(stream);
            }
            Files.move(part, absolute, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(part);
        }
    }
}
