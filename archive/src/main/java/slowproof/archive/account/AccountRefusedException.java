package slowproof.archive.account;

/** An account cannot be added or changed as asked, for a reason that the person can do something about. */
public final class AccountRefusedException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** What is wrong. */
    public enum Why {
        /** The name is empty, longer than 60 characters, or has other signs than letters, digits and . _ - */
        NAME,
        /** There is an account of that name. */
        TAKEN,
        /** There is no account of that name. */
        UNKNOWN,
        /** The password is shorter than 12 or longer than 128 characters. */
        LENGTH,
        /** The password holds the name, is one piece repeated, or runs along the keyboard. */
        GUESSED,
        /** It is the last open account that may change accounts. */
        LAST_ADMIN;

        /** Returns the word for the reason, as bundles name it. */
        public String key() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    private final Why why;

    AccountRefusedException(Why why) {
        super(why.key());
        this.why = why;
    }

    /** Returns what is wrong. */
    public Why why() {
        return why;
    }
}
