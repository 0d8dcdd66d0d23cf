package slowproof.trial.note;

import java.util.Locale;

/** Remarks on a result. The key of each sentence in the message bundles is {@code note.} followed by {@link #key()}. */
public enum NoteCode {
    NO_REFERENCE_UNCERTAINTY,
    NO_LIMIT,
    LIMIT_FROM_MEMORY,
    TAPE_CLASS,
    NO_RESOLUTION,
    NO_ACCELERATION,
    NO_MISALIGNMENT,
    NO_TEMPERATURE,
    NO_ANCHOR_PASS,
    ABBE_WITHOUT_ANGLE,
    TEMPERATURE_CORRECTED,
    REFERENCE_RATIO_LOW,
    REFERENCE_TOO_COARSE,
    MORE_PASSES_WOULD_DO,
    MORE_PASSES_WILL_NOT_DO,
    MEAN_AND_SINGLE_PASS_DIFFER,
    EXCLUDED,
    CLOSURE_NOT_AVAILABLE,
    SCATTER_BELOW_RESOLUTION,
    STRAGGLER,
    FLAGS_BY_CHANCE,
    OUTLIER,
    COCHRAN_STRAGGLER,
    COCHRAN_OUTLIER,
    REVERSAL_SIGNIFICANT,
    CURVES_BY_DIRECTION,
    SEVERAL_SETUPS,
    FEWER_THAN_TWO_PASSES,
    TIME_BACKWARDS,
    COLUMNS_IGNORED,
    DECIMAL_COMMA_READ,
    CONFIRMED,
    /** {0} how a log was read, in one line. */
    LOG_READ_AS,
    /** {0} key of what a column was taken as, {1} its heading, {2} heading of a column that could be that too. */
    LOG_COLUMN_OTHER,
    /** {0} noise of one speed, {1} time over which it is averaged, {2} speed below which the line rests. */
    LINE_LOG_SMOOTHED,
    /** {0} net travel, {1} change of all speeds in percent that keeps it. */
    LINE_LOG_DISTANCE,
    /** {0} whole pieces, {1} change of all speeds in percent that makes them. */
    LINE_LOG_WHOLE,
    /** {0} offset at mid-record, {1} its standard uncertainty, {2} drift or empty, {3} its standard uncertainty. */
    LOG_CLOCKS,
    /** {0} rough offset, {1} key of the reason. */
    LOG_CLOCKS_ROUGH,
    /** {0} passes in which the sensor moves while the reference rests, {1} all passes; the clocks were brought together by one offset only. */
    LOG_CLOCKS_APART,
    /** {0} speed below which it counts as rest, {1} speed of the slowest pass, {2} shortest standstill. */
    LOG_REST_UNCLEAR,
    /** {0} speed below which the reference alone seemed to rest, {1} the same with the sensor asked. */
    LOG_REST_BY_SENSOR,
    /** {0} line. */
    LOG_LAST_ROW_BROKEN,
    /** {0} line. */
    LOG_LAST_ROW_CUT,
    /** {0} rows left out, {1} rows of the log. */
    LOG_ROWS_LEFT_OUT,
    /** {0} rows left out, {1} rows of the log. */
    LOG_TIMES_REPEATED,
    /** {0} jumps, {1} time before the first. */
    LOG_CLOCK_BACK,
    /** {0} gaps, {1} their length in all, {2} the longest, {3} its time. */
    LOG_GAPS,
    /** {0} turns of the register, {1} its bits. */
    LOG_COUNTER_WRAPPED,
    /** {0} steps, {1} time of the first. */
    LOG_COUNTER_STEP,
    /** {0} steps, {1} time of the first. */
    LOG_REFERENCE_STEP,
    /** {0} times, {1} time of the first. */
    LOG_BOTH_ZEROED,
    /** {0} illegal transitions, {1} time of the first. */
    LOG_ILLEGAL_TRANSITIONS,
    /** {0} top speed, {1} edges per sample, {2} interval. */
    LOG_SAMPLING_TOO_SLOW,
    /** {0} dwell, {1} speed below which it would rest. */
    LOG_NO_STANDSTILL,
    /** {0} first time, {1} first time at rest. */
    LOG_STARTS_IN_MOTION,
    /** {0} last time at rest, {1} last time. */
    LOG_ENDS_IN_MOTION,
    /** {0} time before, {1} time after. */
    LOG_MOVE_WITHOUT_TRAVEL,
    /** {0} factor by which the uncertainties were widened. */
    CURVE_LACK_OF_FIT,
    CURVE_OUTSIDE_FAMILY,
    /** {0} programmed speed, {1} peak of the move. */
    SPEED_NOT_REACHED,
    SCATTER_DIFFERS_WITH_SPEED,
    /** {0} step of the readings. */
    COUNTS_TOO_COARSE,
    /** {0} change of the error from pass to pass. */
    DRIFT_IN_SERIES,
    /** {0} change of the error from series to series. */
    DRIFT_BETWEEN_SERIES,
    /** {0} first passes less the others. */
    WARM_UP,
    ORDER_NOT_RANDOM,
    ORDER_CONFOUNDED,
    /** {0} distance of the pass from its group. */
    RESIDUAL_OUTLIER;

    /** Returns the code as written in message bundles and in JSON, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
