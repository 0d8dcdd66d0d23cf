package slowproof.app.web;

import io.javalin.http.Context;
import slowproof.archive.account.Role;

/**
 * Who reads a page.
 *
 * @param name name of the account; empty for the person at this machine, who needs none
 * @param role what the person may do
 * @param token secret that every form of the session carries, so that no foreign page can send one; empty without session
 */
public record Reader(String name, Role role, String token) {
    /** The person at this machine. */
    static final Reader HERE = new Reader("", Role.ADMIN, "");

    /** Somebody before the log-in. */
    static final Reader OUTSIDE = new Reader("", Role.READ, "");

    private static final String ATTRIBUTE = "reader";

    static Reader of(Context context) {
        Reader reader = context.attribute(ATTRIBUTE);
        return reader == null ? HERE : reader;
    }

    void reads(Context context) {
        context.attribute(ATTRIBUTE, this);
    }

    /** Returns true for somebody who has logged in. */
    public boolean hasAccount() {
        return !name.isEmpty();
    }

    /** Returns true when the person may record something. */
    public boolean mayRecord() {
        return role.includes(Role.BENCH);
    }

    /** Returns true when the person may change accounts. */
    public boolean mayChangeAccounts() {
        return role.includes(Role.ADMIN);
    }
}
