package slowproof.files.in;

/**
 * A file that took part, with the fingerprint of its bytes.
 *
 * @param name name as the trial gives it; of the trial or line file itself its name without its folder
 * @param sha256 SHA-256 of its bytes, 64 hexadecimal digits
 */
public record SourceFile(String name, String sha256) {
    /** Returns the SHA-256 of bytes, 64 hexadecimal digits. */
    public static String fingerprint(byte[] bytes) {
        return RawFile.sha256(bytes);
    }
}
