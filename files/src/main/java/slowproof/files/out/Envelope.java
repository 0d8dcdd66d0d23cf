package slowproof.files.out;

import org.jspecify.annotations.Nullable;

/**
 * What made a result, so that it can be made again.
 *
 * @param version version of the program
 * @param commit commit that it was built from
 * @param settingsSha256 SHA-256 of everything that was set, 64 hexadecimal digits
 * @param seed seed of the random numbers, or null when none were used
 */
public record Envelope(
        String version,
        String commit,
        String settingsSha256,
        @Nullable Long seed) {}
