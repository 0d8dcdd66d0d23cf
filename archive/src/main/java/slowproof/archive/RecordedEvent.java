package slowproof.archive;

/**
 * An event with the name that its sender gave to the sending.
 *
 * @param event the event
 * @param token name of the sending, empty for none or where it stands at the sending's first event
 */
public record RecordedEvent(Event event, String token) {}
