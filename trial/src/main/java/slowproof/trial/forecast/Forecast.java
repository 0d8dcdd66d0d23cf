package slowproof.trial.forecast;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Interval;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.line.Line;
import slowproof.trial.spectrum.KnotDistances;

/**
 * The length error of pieces on a line. Lengths in mm.
 *
 * @param line the line
 * @param evidence what the trial says of the material
 * @param refusal why there are no figures, or null; then {@code figures} is there
 * @param figures the figures, or null
 */
public record Forecast(
        Line line,
        LineEvidence evidence,
        @Nullable Refusal refusal,
        @Nullable Figures figures) {
    /** Why a trial cannot carry a forecast. */
    public enum Refusal {
        /** Nothing was repeated, so that neither scatter nor uncertainty are known: repeat the passes. */
        NO_REPEATS
    }

    /**
     * The figures.
     *
     * @param expectedErrorMm the sensor's error over one true piece, positive = over-reads; mean over the mix
     * @param deviationMm mean deviation of a piece where the line cuts on the sensor; null elsewhere
     * @param meanUncertaintyMm standard uncertainty of the expected error: the same for all pieces
     * @param meanInterval its 95 % interval, the bounds of what is not covered added at its ends
     * @param spreadMm standard deviation from piece to piece
     * @param pieceInterval 95 % interval of the next piece: deviation where the line cuts on the sensor, else error
     * @param outside probability that the next piece is outside its tolerance, or null without a tolerance
     * @param outsideInterval 95 % interval of the share outside, what is not covered at its worst; or null
     * @param coverage what the trial does not cover
     * @param belowSlowestMm travel per piece below the slowest tested speed
     * @param belowFloorMm travel per piece below the floor speed, or null without one
     * @param spectrum travel per piece on the knots of the curve
     * @param contributions sources, largest first
     * @param monteCarlo the same by Monte Carlo
     * @param promises answers to the inverse questions
     * @param remedies what is left after corrections of the sensor's reading
     * @param changes what one change buys, most first
     * @param decision answer about the tolerance
     * @param worseScatter whether scatter per start and per travel are not known apart and the worse is taken
     * @param shiftedSpeedMm change of the expected error when the line runs 10 % slower or faster, the larger
     */
    public record Figures(
            double expectedErrorMm,
            @Nullable Double deviationMm,
            double meanUncertaintyMm,
            Interval meanInterval,
            double spreadMm,
            Interval pieceInterval,
            @Nullable Double outside,
            @Nullable Interval outsideInterval,
            Coverage coverage,
            double belowSlowestMm,
            @Nullable Double belowFloorMm,
            KnotDistances spectrum,
            List<Contribution> contributions,
            Sampled monteCarlo,
            Promises promises,
            List<Remedy> remedies,
            List<Change> changes,
            Answer decision,
            boolean worseScatter,
            double shiftedSpeedMm) {
        /** Copies the lists. */
        public Figures {
            contributions = List.copyOf(contributions);
            remedies = List.copyOf(remedies);
            changes = List.copyOf(changes);
        }

        /** Returns whether the trial covers the line. */
        public boolean covered() {
            return coverage.gaps().isEmpty();
        }
    }

    /**
     * What Monte Carlo says.
     *
     * @param pieces pieces drawn
     * @param seed seed
     * @param expectedErrorMm mean error
     * @param deviationMm standard deviation of what the tolerance judges, all that is unknown included
     * @param pieceInterval its symmetric 95 % interval
     * @param outside share outside the tolerance, or null without one
     * @param outsideUncertainty standard uncertainty of that share by the number of draws, or null
     * @param tailSampled whether the share is by importance sampling, because few pieces fell outside
     * @param stable whether two digits are stable
     */
    public record Sampled(
            long pieces,
            long seed,
            double expectedErrorMm,
            double deviationMm,
            Interval pieceInterval,
            @Nullable Double outside,
            @Nullable Double outsideUncertainty,
            boolean tailSampled,
            boolean stable) {}

    /**
     * A correction of the sensor's reading on the line.
     *
     * @param kind what is corrected
     * @param expectedErrorMm expected error after it
     * @param toleranceMm tolerance that can be promised after it
     */
    public record Remedy(Kind kind, double expectedErrorMm, double toleranceMm) {
        /** Kinds, in the order of effort. */
        public enum Kind {
            AS_FOUND,
            SCALE_CORRECTED,
            CURVE_CORRECTED;

            /** Returns the kind as written in files, lower_snake_case. */
            public String key() {
                return name().toLowerCase(Locale.ROOT);
            }
        }
    }

    /**
     * What one change buys.
     *
     * @param kind the change
     * @param toleranceMm tolerance that can be promised after it
     * @param gainMm by how much that is less than as things are; negative when it harms
     */
    public record Change(What kind, double toleranceMm, double gainMm) {
        /** Kinds of change. */
        public enum What {
            CREEP_TWICE_AS_FAST,
            RAMPS_TWICE_AS_HARD,
            ONE_STOP_LESS,
            SCALE_CORRECTED,
            CURVE_CORRECTED,
            TRIGGER_HALF,
            REFERENCE_HALF,
            STEP_HALF,
            TWICE_THE_PASSES;

            /** Returns the change as written in files, lower_snake_case. */
            public String key() {
                return name().toLowerCase(Locale.ROOT);
            }
        }
    }
}
