package slowproof.archive;

import java.util.List;
import slowproof.archive.desk.CardEvent;

/** Somebody recorded something of a card that the sender has not seen. Nothing was recorded. */
public final class CardChangedException extends RuntimeException {
    private static final long serialVersionUID = 1;

    private final transient List<CardEvent> meanwhile;

    CardChangedException(int number, List<CardEvent> meanwhile) {
        super("card " + number + " has " + meanwhile.size() + " events that the sender has not seen");
        this.meanwhile = List.copyOf(meanwhile);
    }

    /** Returns what was recorded meanwhile, in order. */
    public List<CardEvent> meanwhile() {
        return meanwhile;
    }
}
