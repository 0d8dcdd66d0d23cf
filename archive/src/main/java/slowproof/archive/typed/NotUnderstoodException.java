package slowproof.archive.typed;

import java.util.Locale;

/** A typed text is not the number that is wanted. */
public final class NotUnderstoodException extends Exception {
    private static final long serialVersionUID = 1L;

    /** Why it is not. */
    public enum Why {
        EMPTY,
        NOT_A_NUMBER,
        /** A mark that could group thousands or divide decimals: 1,200. */
        AMBIGUOUS_MARK,
        UNKNOWN_UNIT,
        TOO_LARGE,
        NOT_POSITIVE,
        NEGATIVE;

        /** Returns the code as key of the message bundles, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    private final Why why;
    private final String typed;

    /**
     * Creates the exception.
     *
     * @param why why
     * @param typed what was typed
     */
    public NotUnderstoodException(Why why, String typed) {
        super(why + ": " + typed);
        this.why = why;
        this.typed = typed;
    }

    /** Returns why. */
    public Why why() {
        return why;
    }

    /** Returns what was typed. */
    public String typed() {
        return typed;
    }
}
