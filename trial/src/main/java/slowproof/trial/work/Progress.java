package slowproof.trial.work;

/** Told how far a long computation has come. Implementations must be quick and may be called from several threads. */
@FunctionalInterface
public interface Progress {
    /** Ignores every report. */
    Progress NONE = (done, total) -> {};

    /**
     * Reports the state of the work.
     *
     * @param done steps finished, 0 to {@code total}
     * @param total steps in all, at least 1
     */
    void at(long done, long total);
}
