package slowproof.app;

/** What the program tells the shell when it ends. */
final class ExitStatus {
    /** Done, whatever the decision. */
    static final int DONE = 0;

    /** Anything that is neither done nor the input's fault. */
    static final int FAILED = 1;

    /** The input or the words are wrong. */
    static final int WRONG_INPUT = 2;

    /** A document differs from what its raw files give. */
    static final int DIFFERS = 3;

    private ExitStatus() {}
}
