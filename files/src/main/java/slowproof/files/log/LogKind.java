package slowproof.files.log;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;

/** What kind of file a log is, told by its first bytes and never by its name. */
enum LogKind {
    /** Text, plain or packed with gzip. */
    TEXT,
    /** A workbook: a zip archive, and no text begins like one. */
    WORKBOOK,
    /** Columns of a Parquet file. */
    PARQUET;

    /**
     * Returns the kind of a file.
     *
     * @throws IOException if it cannot be read
     */
    static LogKind of(Path path) throws IOException {
        byte[] start;
        try (InputStream in = Files.newInputStream(path)) {
            start = in.readNBytes(4);
        }
        if (starts(start, 'P', 'K', 3, 4)) {
            return WORKBOOK;
        }
        return starts(start, 'P', 'A', 'R', '1') ? PARQUET : TEXT;
    }

    private static boolean starts(byte[] start, int... signs) {
        for (int i = 0; i < signs.length; i++) {
            if (i >= start.length || start[i] != signs[i]) {
                return false;
            }
        }
        return true;
    }
}
