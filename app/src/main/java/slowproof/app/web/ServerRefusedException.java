package slowproof.app.web;

import java.util.List;
import slowproof.wording.Wording;

/** The server does not start, for a reason that the person can do something about. */
public final class ServerRefusedException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final String key;
    private final transient List<Object> arguments;

    ServerRefusedException(String key, Object... arguments) {
        super(key + " " + List.of(arguments));
        this.key = key;
        this.arguments = List.of(arguments);
    }

    /** Returns what was wrong and how to mend it. */
    public String sentence(Wording wording) {
        return wording.withPages().text(key, arguments.toArray());
    }
}
