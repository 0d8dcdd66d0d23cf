package slowproof.files.log;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.BitSet;
import org.jspecify.annotations.Nullable;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;

/**
 * Tells files that are no log in a form that can be read: pictures, programs, archives. Their bytes read as text make
 * a heading like any other, and a message about that would help nobody.
 */
final class Foreign {
    /** As much of the beginning as is looked at, in bytes. */
    private static final int START = 4096;

    /** Signs that no text holds make a tenth of packed bytes; noise at the start of a capture makes less. */
    private static final int ONE_IN = 20;

    /** A text may have one or two such signs as frames or separators, but hardly more. */
    private static final int KINDS = 4;

    private Foreign() {}

    /**
     * Does nothing when a file may be a log as text.
     *
     * @param path where it is; neither a workbook nor Parquet
     * @param request what is wanted of it
     * @throws BadInputException if it can be none
     * @throws IOException if it cannot be read
     */
    static void refuse(Path path, LogRequest request) throws IOException {
        ForeignKind kind = kind(path, request.dialect().encoding());
        if (kind != null) {
            throw refusal(request, kind);
        }
    }

    /** Returns what is said of a file of some kind. */
    static BadInputException refusal(LogRequest request, ForeignKind kind) {
        return BadInputException.of(ProblemCode.LOG_FOREIGN, SourcePosition.ofFile(request.name()), kind.key());
    }

    private static @Nullable ForeignKind kind(Path path, @Nullable Charset encoding) throws IOException {
        byte[] start = start(path);
        for (ForeignKind kind : ForeignKind.values()) {
            if (kind.begins(start)) {
                return kind;
            }
        }
        try (RawLog raw = RawLog.open(path, encoding)) {
            return start.length == 0 || isText(new String(start, raw.charset())) ? null : ForeignKind.BYTES;
        }
    }

    /** Returns the first bytes, unpacked and without a byte-order mark. */
    private static byte[] start(Path path) throws IOException {
        // in this encoding every byte is a letter of the same number
        Charset bytes = StandardCharsets.ISO_8859_1;
        char[] start = new char[START];
        try (RawLog raw = RawLog.open(path, bytes)) {
            return new String(start, 0, LogReader.fill(raw.reader(), start)).getBytes(bytes);
        }
    }

    private static boolean isText(String start) {
        int length = start.length();
        // a logger that lost its power leaves zeros behind the text, to the end of a block
        while (length > 0 && start.charAt(length - 1) == 0) {
            length--;
        }
        BitSet kinds = new BitSet();
        int odd = 0;
        int zeros = 0;
        for (int i = 0; i < length; i++) {
            char c = start.charAt(i);
            if (c == '\u007f' || (c < ' ' && (c < '\t' || c > '\r'))) {
                kinds.set(c);
                odd++;
                zeros += c == 0 ? 1 : 0;
            }
        }
        boolean mixed = odd * ONE_IN > length && kinds.cardinality() >= KINDS;
        return length > 0 && !mixed && zeros * 4 <= length;
    }
}
