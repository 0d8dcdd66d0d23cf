package slowproof.archive;

import java.util.List;

/**
 * Events that one person sends for one trial at one time: recorded all or none.
 *
 * @param token what the sender calls it, so that sending it twice records it once; empty for none
 * @param who name of the person, empty when unknown
 * @param seen number of the last event that the sender had seen, or {@link #ANYTHING}
 * @param events what to record
 */
public record Sending(String token, String who, long seen, List<NewEvent> events) {
    /** As last seen event: whatever was recorded meanwhile does not matter. */
    public static final long ANYTHING = Long.MAX_VALUE;

    /** Copies the events. */
    public Sending {
        events = List.copyOf(events);
    }

    /** Returns a sending for which it does not matter what was recorded meanwhile. */
    public static Sending of(String token, String who, List<NewEvent> events) {
        return new Sending(token, who, ANYTHING, events);
    }
}
