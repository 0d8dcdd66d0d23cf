package slowproof.files.log;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.Reader;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.function.LongConsumer;
import org.jspecify.annotations.Nullable;
import slowproof.files.packed.CountedInput;
import slowproof.files.packed.Unpacking;

/**
 * A log opened for reading: gzip is unpacked, the encoding recognised, the fingerprint taken of the bytes as they
 * pass. The file is only read.
 */
final class RawLog implements AutoCloseable {
    private static final int BUFFER = 1 << 16;
    private static final int PEEK = 4096;

    private final MessageDigest digest;
    private final InputStream counted;
    private final InputStream text;
    private final Charset charset;
    private final boolean packed;
    private final int markLength;
    private final LongConsumer told;

    private RawLog(
            MessageDigest digest,
            InputStream counted,
            InputStream text,
            Charset charset,
            boolean packed,
            int markLength,
            LongConsumer told) {
        this.digest = digest;
        this.counted = counted;
        this.text = text;
        this.charset = charset;
        this.packed = packed;
        this.markLength = markLength;
        this.told = told;
    }

    /**
     * Opens a log.
     *
     * @param encoding encoding to read it in, or null to recognise it: a byte-order mark, zero bytes as UTF-16 has
     *     them in plain text, else UTF-8
     */
    static RawLog open(Path path, @Nullable Charset encoding) throws IOException {
        return open(path, encoding, bytes -> {});
    }

    /** Opens a log as {@link #open(Path, Charset)} does, and tells how many bytes of it are read. */
    static RawLog open(Path path, @Nullable Charset encoding, LongConsumer told) throws IOException {
        MessageDigest digest = sha256();
        InputStream observed = new CountedInput(Files.newInputStream(path), told::accept);
        InputStream counted = new DigestInputStream(new BufferedInputStream(observed, BUFFER), digest);
        try {
            BufferedInputStream packed = new BufferedInputStream(counted, BUFFER);
            packed.mark(2);
            boolean gzip = packed.read() == 0x1f && packed.read() == 0x8b;
            packed.reset();
            BufferedInputStream text =
                    gzip ? new BufferedInputStream(Unpacking.gunzip(packed, Files.size(path)), BUFFER) : packed;
            text.mark(PEEK);
            byte[] start = text.readNBytes(PEEK);
            text.reset();
            int mark = markLength(start);
            text.skipNBytes(mark);
            Charset found = charset(start, mark);
            // the mark is passed over, and without it UTF-16 does not say which byte comes first
            boolean order =
                    StandardCharsets.UTF_16.equals(encoding) && found.name().startsWith("UTF-16");
            Charset charset = encoding == null || order ? found : encoding;
            return new RawLog(digest, counted, text, charset, gzip, mark, told);
        } catch (IOException e) {
            counted.close();
            throw e;
        }
    }

    private static int markLength(byte[] start) {
        if (starts(start, 0xef, 0xbb, 0xbf)) {
            return 3;
        }
        return starts(start, 0xff, 0xfe) || starts(start, 0xfe, 0xff) ? 2 : 0;
    }

    private static Charset charset(byte[] start, int mark) {
        if (mark == 2) {
            return start[0] == (byte) 0xff ? StandardCharsets.UTF_16LE : StandardCharsets.UTF_16BE;
        }
        int even = 0;
        int odd = 0;
        for (int i = 0; i < start.length; i++) {
            if (start[i] == 0) {
                even += 1 - (i & 1);
                odd += i & 1;
            }
        }
        // plain text in UTF-16 has a zero in nearly every second byte
        if (odd > start.length / 4 && even == 0) {
            return StandardCharsets.UTF_16LE;
        }
        return even > start.length / 4 && odd == 0 ? StandardCharsets.UTF_16BE : StandardCharsets.UTF_8;
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

    static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** Returns the SHA-256 of a file in hexadecimal digits. */
    static String sha256Of(Path path) throws IOException {
        MessageDigest digest = sha256();
        try (InputStream in = new DigestInputStream(Files.newInputStream(path), digest)) {
            in.transferTo(OutputStream.nullOutputStream());
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    Charset charset() {
        return charset;
    }

    /** Returns true when the file is packed with gzip. */
    boolean packed() {
        return packed;
    }

    /** Returns the bytes of the byte-order mark at the beginning, 0 for none. */
    int markLength() {
        return markLength;
    }

    /** Returns who learns how many bytes are read. */
    LongConsumer told() {
        return told;
    }

    /**
     * Returns the text; half a character at the end of UTF-16 is left out, as where a logger was switched off. A byte that
     * does not belong to the encoding throws {@link java.nio.charset.CharacterCodingException}.
     */
    Reader reader() {
        return new InputStreamReader(
                charset.name().startsWith("UTF-16") ? new WholePairs(text) : text,
                charset.newDecoder()
                        .onMalformedInput(CodingErrorAction.REPORT)
                        .onUnmappableCharacter(CodingErrorAction.REPORT));
    }

    /** Reads on to the end of the file and returns its SHA-256 in hexadecimal digits. */
    String sha256OfAll() throws IOException {
        byte[] rest = new byte[BUFFER];
        while (counted.read(rest) >= 0) {
            // only the digest sees these bytes
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    @Override
    public void close() throws IOException {
        text.close();
    }
}
