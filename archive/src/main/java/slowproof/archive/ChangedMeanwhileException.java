package slowproof.archive;

import java.util.List;

/** Somebody else changed the trial after the sender had last seen it. Nothing of the sending was recorded. */
public final class ChangedMeanwhileException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient List<Event> meanwhile;

    ChangedMeanwhileException(String trial, List<Event> meanwhile) {
        super("trial " + trial + " has " + meanwhile.size() + " newer events");
        this.meanwhile = List.copyOf(meanwhile);
    }

    /** Returns what was recorded meanwhile, in order, at least one event. */
    public List<Event> meanwhile() {
        return meanwhile;
    }
}
