package slowproof.archive.account;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.text.Normalizer;
import java.util.Base64;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.bouncycastle.crypto.generators.Argon2BytesGenerator;
import org.bouncycastle.crypto.params.Argon2Parameters;

/**
 * Argon2id hashes of passwords, written in the usual string form with their parameters, so that those of tomorrow can
 * be stronger. Parameters: RFC 9106, clause 4, second recommended option (3 passes, 4 lanes, 64 MiB, salt of 128
 * bits, tag of 256 bits).
 */
final class PasswordHash {
    private static final SecureRandom RANDOM = new SecureRandom();
    private static final int PASSES = 3;
    private static final int LANES = 4;
    private static final int MEMORY_KIB = 1 << 16;
    private static final int SALT_BYTES = 16;
    private static final int TAG_BYTES = 32;
    private static final Pattern FORM =
            Pattern.compile("\\$argon2id\\$v=19\\$m=(\\d{1,7}),t=(\\d{1,3}),p=(\\d{1,3})\\$([^$]+)\\$([^$]+)");

    // one at a time: each takes 64 MiB, and a crowd of wrong passwords must not take the memory of everybody else
    private static final Object ONE_AT_A_TIME = new Object();

    private PasswordHash() {}

    /** Returns the hash of a password with a salt of its own. */
    static String of(String password) {
        byte[] salt = new byte[SALT_BYTES];
        RANDOM.nextBytes(salt);
        byte[] tag = tag(password, salt, MEMORY_KIB, PASSES, LANES, TAG_BYTES);
        Base64.Encoder base64 = Base64.getEncoder().withoutPadding();
        return "$argon2id$v=19$m=" + MEMORY_KIB + ",t=" + PASSES + ",p=" + LANES + "$" + base64.encodeToString(salt)
                + "$" + base64.encodeToString(tag);
    }

    /**
     * Returns true when a password has the hash.
     *
     * @throws IllegalArgumentException if the text is no such hash
     */
    static boolean matches(String password, String hash) {
        Matcher parts = FORM.matcher(hash);
        if (!parts.matches()) {
            throw new IllegalArgumentException("not an Argon2id hash of version 19");
        }
        byte[] salt = Base64.getDecoder().decode(parts.group(4));
        byte[] wanted = Base64.getDecoder().decode(parts.group(5));
        byte[] tag = tag(
                password,
                salt,
                Integer.parseInt(parts.group(1)),
                Integer.parseInt(parts.group(2)),
                Integer.parseInt(parts.group(3)),
                wanted.length);
        return MessageDigest.isEqual(tag, wanted);
    }

    private static byte[] tag(String password, byte[] salt, int memoryKib, int passes, int lanes, int bytes) {
        Argon2Parameters parameters = new Argon2Parameters.Builder(Argon2Parameters.ARGON2_id)
                .withVersion(Argon2Parameters.ARGON2_VERSION_13)
                .withSalt(salt)
                .withMemoryAsKB(memoryKib)
                .withIterations(passes)
                .withParallelism(lanes)
                .build();
        // keyboards differ in how they put an accent: the same sign must give the same bytes
        byte[] secret = Normalizer.normalize(password, Normalizer.Form.NFKC).getBytes(StandardCharsets.UTF_8);
        byte[] tag = new byte[bytes];
        synchronized (ONE_AT_A_TIME) {
            Argon2BytesGenerator generator = new Argon2BytesGenerator();
            generator.init(parameters);
            generator.generateBytes(secret, tag);
        }
        return tag;
    }
}
