package slowproof.trial.line;

import java.util.List;
import java.util.Locale;

/** Says that a cycle cannot be driven as described. */
public final class LineNotPossibleException extends RuntimeException {
    private static final long serialVersionUID = 1;

    /** What is wrong. The sentences stand in the message bundles under {@code problem.}. */
    public enum Why {
        /** The steps travel farther than the pieces: travel of the steps, length of the pieces, both in mm. */
        LINE_LONGER_THAN_PIECE,
        /** The steps travel less than the pieces and none holds the rest: travel, length, both in mm. */
        LINE_SHORTER_THAN_PIECE,
        /** A step holds a speed or a rest of the piece while the line stands still. */
        LINE_HOLD_AT_REST,
        /** A step stops or reverses while the line still moves: its speed in mm/s. */
        LINE_STOP_IN_MOTION,
        /** More than one step holds the rest. */
        LINE_TWO_RESTS,
        /** The cycle ends at a speed other than the one it began with: speed at the end in mm/s. */
        LINE_NOT_CLOSED,
        /** The line moves backwards at the cut. */
        LINE_CUT_BACKWARDS,
        /** The log travels less than one piece: travel, length, both in mm. */
        LINE_LOG_SHORT,
        /** The log has no motion. */
        LINE_LOG_AT_REST;

        /** Returns the code as key of the message bundles, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    private final Why why;
    private final int step;
    private final transient List<Double> figures;

    LineNotPossibleException(Why why, int step, Double... figures) {
        super(why.key() + " " + List.of(figures));
        this.why = why;
        this.step = step;
        this.figures = List.of(figures);
    }

    /** Returns what is wrong. */
    public Why why() {
        return why;
    }

    /** Returns the place of the step in the cycle, from 0; -1 when it is the cycle as a whole. */
    public int step() {
        return step;
    }

    /** Returns the figures that the sentence needs. */
    public List<Double> figures() {
        return figures;
    }
}
