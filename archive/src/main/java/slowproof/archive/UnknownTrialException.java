package slowproof.archive;

/** No trial has that id. */
public final class UnknownTrialException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** Creates the exception for an id. */
    public UnknownTrialException(String id) {
        super("no trial " + id);
    }
}
