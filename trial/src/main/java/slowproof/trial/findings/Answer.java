package slowproof.trial.findings;

import slowproof.metrology.conformity.Decision;

/** The answers a trial can give to the question whether a limit is met. */
public enum Answer {
    CONFORMS("conforms"),
    DOES_NOT_CONFORM("does not conform"),
    UNDECIDED("undecided"),
    /** No decision, because the uncertainty of the reference or the limit is unknown. */
    SCREENING_ONLY("screening only");

    private final String key;

    Answer(String key) {
        this.key = key;
    }

    /** Returns the answer as written in files. */
    public String key() {
        return key;
    }

    static Answer of(Decision decision) {
        return switch (decision) {
            case CONFORMS -> CONFORMS;
            case DOES_NOT_CONFORM -> DOES_NOT_CONFORM;
            case UNDECIDED -> UNDECIDED;
        };
    }
}
