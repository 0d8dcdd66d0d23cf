package slowproof.trial.work;

/** Asked by long computations, every few milliseconds, whether somebody wants them to stop. */
@FunctionalInterface
public interface Cancel {
    /** Never asks to stop. */
    Cancel NEVER = () -> false;

    /** Returns true when the work should end early; the computation then throws {@link java.util.concurrent.CancellationException}. */
    boolean requested();
}
