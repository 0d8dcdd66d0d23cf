package slowproof.trial.curve;

import org.jspecify.annotations.Nullable;

/** Keeps what was drawn once: the same numbers always give the same draws, so they need not be drawn again. */
public interface DrawStore {
    /** Keeps nothing. */
    DrawStore NONE = new DrawStore() {
        @Override
        public double @Nullable [] find(double[] from) {
            return null;
        }

        @Override
        public void keep(double[] from, double[] drawn) {
            // nothing is kept
        }
    };

    /** Returns what was drawn from exactly these numbers before, or null. */
    double @Nullable [] find(double[] from);

    /**
     * Keeps draws; a store that cannot does nothing.
     *
     * @param from everything that they hang on
     * @param drawn the draws
     */
    void keep(double[] from, double[] drawn);
}
