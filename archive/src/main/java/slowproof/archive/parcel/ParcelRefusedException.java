package slowproof.archive.parcel;

import java.util.List;

/** A file is no whole and sound trial. Nothing of it was recorded. */
public final class ParcelRefusedException extends Exception {
    private static final long serialVersionUID = 1L;

    private final String key;
    private final transient List<Object> arguments;

    ParcelRefusedException(String key, Object... arguments) {
        super(key + " " + List.of(arguments));
        this.key = "parcel." + key;
        this.arguments = List.of(arguments);
    }

    /** Returns the key of the sentence that says what was found and how to mend it, as the bundles of the pages name it. */
    public String key() {
        return key;
    }

    /** Returns what stands in the sentence. */
    public List<Object> arguments() {
        return arguments;
    }
}
