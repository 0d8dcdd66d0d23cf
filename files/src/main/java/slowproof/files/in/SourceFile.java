package slowproof.files.in;

/**
 * A file that took part, with the fingerprint of its bytes.
 *
 * @param name name as the user or the trial gave it
 * @param sha256 SHA-256 of its bytes, 64 hexadecimal digits
 */
public record SourceFile(String name, String sha256) {
    /** Returns the SHA-256 of bytes, 64 hexadecimal digits. */
    public static String fingerprint(byte[] bytes) {
        return RawFile.sha256(bytes);
    }
}
