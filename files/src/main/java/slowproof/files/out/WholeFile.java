package slowproof.files.out;

import java.io.BufferedOutputStream;
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
        // not a temporary file of the platform's making: that one is readable by its owner only, and stays so
        Path part = target.resolveSibling("." + target.getFileName() + ".part");
        try {
            try (OutputStream stream = new BufferedOutputStream(Files.newOutputStream(part))) {
                content.writeTo(stream);
            }
            Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(part);
        }
    }
}
