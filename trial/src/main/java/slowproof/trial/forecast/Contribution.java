package slowproof.trial.forecast;

import java.util.Locale;

/**
 * One source of what is not known of the next piece.
 *
 * @param source where it comes from
 * @param standardUncertaintyMm its standard deviation in mm
 * @param share its share of the variance of the next piece, 0 to 1
 */
public record Contribution(Source source, double standardUncertaintyMm, double share) {
    /** Sources. */
    public enum Source {
        /** Error curve and mean start loss; the same for all pieces. */
        CURVE(true),
        /** Uncertainty of the trial's reference; the same for all pieces. */
        REFERENCE(true),
        /** Misalignment, temperature, Abbe offset; the same for all pieces. */
        SETUP(true),
        /** Spread between series of the trial; the same for all pieces. */
        SERIES(true),
        /** Drift at standstill within its stated bound; the same for all pieces. */
        STANDSTILL_DRIFT(true),
        /** Spread from unit to unit as stated. */
        UNIT(true),
        /** Scatter of each start. */
        START_SCATTER(false),
        /** Scatter that grows with the travel. */
        TRAVEL_SCATTER(false),
        /** Two readings, each uniform over one step. */
        RESOLUTION(false),
        /** Jitter of the cuts. */
        TRIGGER(false),
        /** Differences between the pieces of a cycle or mix. */
        POSITION(false);

        private final boolean shared;

        Source(boolean shared) {
            this.shared = shared;
        }

        /** Returns whether all pieces of a line share it, so that it does not show as spread from piece to piece. */
        public boolean shared() {
            return shared;
        }

        /** Returns the source as written in files, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }
}
