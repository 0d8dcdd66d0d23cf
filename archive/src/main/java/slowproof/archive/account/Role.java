package slowproof.archive.account;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What an account may do; each includes what stands before it. */
public enum Role {
    /** Looks at everything, changes nothing. */
    READ,
    /** Records trials, questions, samples and answers. */
    BENCH,
    /** Adds and closes accounts. */
    ADMIN;

    /** Returns true when this role may do what another may. */
    public boolean includes(Role other) {
        return compareTo(other) >= 0;
    }

    /** Returns the word for the role, as it is written and typed: read, bench, admin. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Returns the role of a word, or empty when there is none. */
    public static Optional<Role> of(String word) {
        return Arrays.stream(values()).filter(role -> role.key().equals(word)).findFirst();
    }
}
