package slowproof.archive.sheet;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * The recordings of a trial: how they are to be read, and which kept files they are.
 *
 * @param trial a trial file as text, which names the recordings and how they are read
 * @param files fingerprint (SHA-256, 64 hexadecimal digits) of each log by the name that the trial file gives it
 */
public record Recordings(String trial, Map<String, String> files) {
    /** A trial without recordings. */
    public static final Recordings NONE = new Recordings("", Map.of());

    /** Copies the map. */
    public Recordings {
        files = Collections.unmodifiableMap(new LinkedHashMap<>(files));
    }

    /** Returns true when there are none. */
    public boolean isEmpty() {
        return trial.isEmpty();
    }
}
