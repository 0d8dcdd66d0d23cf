package slowproof.files.in;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import slowproof.files.packed.UnpackLimitException;
import slowproof.files.packed.Unpacking;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;

/**
 * A small file read whole: its text and its fingerprint. The file itself is only read. UTF-8 with or without a
 * byte-order mark, UTF-16 with one or of plainly ASCII content, and gzip of these are understood.
 */
final class RawFile {
    private final String name;
    private final String text;
    private final String sha256;

    private RawFile(String name, String text, String sha256) {
        this.name = name;
        this.text = text;
        this.sha256 = sha256;
    }

    /**
     * Reads a file.
     *
     * @param path where it is
     * @param name what messages call it
     * @throws BadInputException if it is missing, unreadable, empty or in an encoding that is not understood
     */
    static RawFile read(Path path, String name) {
        SourcePosition whole = SourcePosition.ofFile(name);
        if (!Files.exists(path)) {
            throw BadInputException.of(
                    ProblemCode.FILE_NOT_FOUND, whole, path.toAbsolutePath().toString());
        }
        if (Files.isDirectory(path)) {
            throw BadInputException.of(ProblemCode.FILE_NOT_READABLE, whole, "a folder");
        }
        byte[] bytes;
        try {
            bytes = Files.readAllBytes(path);
        } catch (IOException e) {
            throw BadInputException.of(ProblemCode.FILE_NOT_READABLE, whole, String.valueOf(e.getMessage()));
        }
        return of(bytes, name);
    }

    /**
     * Returns a file that is at hand already.
     *
     * @param bytes its content
     * @param name what messages call it
     * @throws BadInputException if it is empty, unreadable or in an encoding that is not understood
     */
    static RawFile of(byte[] bytes, String name) {
        SourcePosition whole = SourcePosition.ofFile(name);
        byte[] content;
        try {
            content = gzip(bytes) ? unzip(bytes) : bytes;
        } catch (UnpackLimitException e) {
            throw BadInputException.of(ProblemCode.FILE_UNPACKS_TOO_LARGE, whole, e.limitBytes() >> 20);
        } catch (IOException e) {
            throw BadInputException.of(ProblemCode.FILE_NOT_READABLE, whole, String.valueOf(e.getMessage()));
        }
        String text = decode(content, whole);
        if (text.isBlank()) {
            throw BadInputException.of(ProblemCode.FILE_EMPTY, whole);
        }
        return new RawFile(name, text, sha256(bytes));
    }

    private static boolean gzip(byte[] bytes) {
        return bytes.length > 2 && bytes[0] == 0x1f && bytes[1] == (byte) 0x8b;
    }

    private static byte[] unzip(byte[] bytes) throws IOException {
        try (InputStream in = Unpacking.gunzip(new ByteArrayInputStream(bytes), bytes.length)) {
            return in.readAllBytes();
        }
    }

    private static String decode(byte[] bytes, SourcePosition whole) {
        Charset charset = StandardCharsets.UTF_8;
        int skip = 0;
        if (starts(bytes, 0xef, 0xbb, 0xbf)) {
            skip = 3;
        } else if (starts(bytes, 0xff, 0xfe)) {
            charset = StandardCharsets.UTF_16LE;
            skip = 2;
        } else if (starts(bytes, 0xfe, 0xff)) {
            charset = StandardCharsets.UTF_16BE;
            skip = 2;
        } else if (bytes.length > 1 && bytes[0] != 0 && bytes[1] == 0) {
            charset = StandardCharsets.UTF_16LE;
        } else if (bytes.length > 1 && bytes[0] == 0) {
            charset = StandardCharsets.UTF_16BE;
        }
        try {
            return charset.newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(ByteBuffer.wrap(bytes, skip, bytes.length - skip))
                    .toString();
        } catch (CharacterCodingException e) {
            long line = 1;
            for (int i = skip; i < bytes.length && bytes[i] >= 0; i++) {
                line += bytes[i] == '\n' ? 1 : 0;
            }
            throw BadInputException.of(
                    ProblemCode.TEXT_ENCODING, new SourcePosition(whole.file(), line, 0, ""), charset.name());
        }
    }

    private static boolean starts(byte[] bytes, int... mark) {
        if (bytes.length < mark.length) {
            return false;
        }
        for (int i = 0; i < mark.length; i++) {
            if ((bytes[i] & 0xff) != mark[i]) {
                return false;
            }
        }
        return true;
    }

    static String sha256(byte[] bytes) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    String name() {
        return name;
    }

    String text() {
        return text;
    }

    SourceFile source() {
        return new SourceFile(name, sha256);
    }

    /** Returns the same with the name alone: where a folder lies says nothing about a trial. */
    SourceFile sourceWithoutFolder() {
        return new SourceFile(nameOf(Path.of(name)), sha256);
    }

    /** Returns the name of a file without its folder. */
    static String nameOf(Path file) {
        Path last = file.getFileName();
        return last == null ? file.toString() : last.toString();
    }
}
