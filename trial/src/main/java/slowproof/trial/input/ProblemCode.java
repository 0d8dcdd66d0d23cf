package slowproof.trial.input;

import java.util.Locale;

/**
 * Everything that can be wrong with input. The key of each sentence in the message bundles is
 * {@code problem.} followed by {@link #key()}.
 *
 * <p>Arguments of a problem, in order: {0} is what was found, {1} what was expected or the nearest known thing;
 * where a code wants others, it says so. The nearest known thing may be the empty text when there is none. Text
 * is taken as written in the file; numbers with a unit are {@link slowproof.trial.note.Quantity}, counts are
 * {@link Integer} or {@link Long}. The place (file, line, column, field) is never repeated in the arguments.
 *
 * <p>Codes that begin with QUESTION are probable slips of typing, put as a question. When the person answers that
 * it is right, the code's {@link #key()} is added to {@code confirm:} in the trial.
 */
public enum ProblemCode {
    /** {0} path as given. */
    FILE_NOT_FOUND,
    /** {0} why, as the system says it. */
    FILE_NOT_READABLE,
    /** {0} how many MiB a file of this size may hold, a {@link Long}. */
    FILE_UNPACKS_TOO_LARGE,
    /** No arguments; the place is the folder that files were to be written to. */
    FOLDER_NOT_WRITABLE,
    /** No arguments. */
    FILE_EMPTY,
    /** No arguments. */
    HEADER_ONLY,
    /** {0} encoding that the text was read as. */
    TEXT_ENCODING,
    /** {0} heading that is missing, {1} headings found, separated by commas. */
    COLUMN_MISSING,
    /** {0} usual heading, {1} headings found, separated by commas. */
    REFERENCE_MISSING,
    /** {0} heading. */
    COLUMN_TWICE,
    /** {0} heading or unit found, {1} known units, separated by commas. */
    UNKNOWN_UNIT,
    /** {0} heading found, {1} nearest known heading, or empty. */
    UNKNOWN_COLUMN,
    /** {0} cell, {1} decimal sign of the file. */
    NOT_A_NUMBER,
    /** {0} cell with the other decimal sign or with thousands separators, {1} decimal sign of the file. */
    DECIMAL_COMMA,
    /** {0} cell. */
    NOT_FINITE,
    /** {0} fields found, {1} fields of the header. */
    FIELD_COUNT,
    /** {0} fields found, {1} fields of the header; a decimal comma under a separator comma is likely. */
    FIELD_COUNT_COMMA,
    /** No arguments. */
    VALUE_MISSING,
    /** {0} value found. */
    NOT_POSITIVE,
    /** {0} value found. */
    NEGATIVE,
    /** {0} value found, {1} permitted range with its unit. */
    OUT_OF_RANGE,
    /** {0} cell. */
    BAD_TIME,
    /** {0} what the parser says. */
    YAML_SYNTAX,
    /** {0} value found; {1} kind expected: "a text", "a key" or "key: value lines". */
    YAML_KIND,
    /** {0} key found, {1} nearest known key, or empty. */
    UNKNOWN_KEY,
    /** {0} key that is missing. */
    KEY_MISSING,
    /** {0} key. */
    KEY_TWICE,
    /** {0} word found, {1} permitted words, separated by commas. */
    UNKNOWN_CHOICE,
    /** {0} text found where one sign is wanted, {1} signs that serve, separated by spaces. */
    NOT_ONE_SIGN,
    /** No arguments. */
    NO_DATA,
    /** {0} key of the reason, such as "ambiguous". */
    CLOCKS_NOT_ALIGNED,
    /**
     * {0} file, {1} rows, {2} how long they last, {3} how far the track moved by which standstills are told, {4} standstills found, {5} shortest
     * standstill, {6} width within which it stays, {7} parts that it was cut into, {8} jumps of the counter, {9} of the reference, empty for none.
     */
    NO_PASSES,
    /** {0} lengths typed, {1} passes found, {2} file, {3} start and indication of the passes, a list of lists, {4} how many more are not listed, empty for none. */
    REFERENCES_DIFFER,
    /** {0} number of the pass, {1} travel typed, {2} indication. */
    REFERENCE_AGAINST_SENSOR,
    /** {0} file of the reference that is given too. */
    REFERENCE_TWICE,
    LIMIT_ZERO,
    /** {0} value found, {1} series. */
    SERIES_MIXED,
    /** {0} series, {1} file where it begins. */
    SERIES_SPLIT,
    /** {0} series. */
    SERIES_TOO_SHORT,
    /** {0} passes found, {1} passes needed. */
    TOO_FEW_PASSES,
    /** {0} position of the reference. */
    ZERO_STROKE,
    /** {0} pass named, {1} the first pass that exists, or empty. */
    EXCLUDED_PASS_UNKNOWN,
    /** {0} piece. */
    PIECE_TWICE,
    /** {0} key of what the file is, such as "picture". */
    LOG_FOREIGN,
    /** No arguments. */
    LOG_NO_ROWS,
    /** {0} names of the columns, separated by commas. */
    LOG_COLUMNS_ONLY,
    /** {0} usual heading of what is wanted, {1} columns found, {2} first row. */
    LOG_NO_HEADINGS,
    /** {0} fields of the headings, {1} fields of the rows, {2} separator where it may be a decimal comma too, or empty. */
    LOG_HEADING_FIELDS,
    /** {0} heading that was taken first, {1} heading of a second column, {2} what both could be, as a key of the mapping. */
    LOG_COLUMN_TWO,
    /** {0} cell, {1} an example of each form that is read, separated by commas. */
    LOG_STAMP,
    /** {0} heading or number in the mapping, {1} columns found, {2} headings or first row. */
    LOG_COLUMN_NOT_THERE,
    /** No arguments. */
    LOG_THRESHOLD_MISSING,
    /** {0} cell that should be a flag, {1} separator where it may be a decimal comma too, or empty. */
    LOG_FLAG,
    /** {0} and {1} two units that are given for a column, {2} what the column holds, as a key of the mapping. */
    LOG_UNITS_TWO,
    /** {0} unit of the angle. */
    LOG_CIRCUMFERENCE_MISSING,
    /** {0} what the parser says. */
    LOG_QUOTES,
    /** {0} cell in quotes whose comma may be a decimal comma or separate thousands. */
    LOG_COMMA_UNCLEAR,
    /** {0} number whose sign may be a decimal sign or separate thousands, {1} the sign. */
    LOG_THOUSANDS_UNCLEAR,
    /** {0} count found, {1} decimal sign of the file. */
    LOG_COUNT_NOT_WHOLE,
    /** No arguments; comma is both separator and decimal sign, and no number stands in quotes. */
    LOG_COMMA_UNQUOTED,
    /** {0} heading of a column of whole numbers, {1} cell of the column behind it. */
    LOG_DECIMALS_CUT,
    /** {0} number of problems from this place on. */
    LOG_MORE_PROBLEMS,
    /** {0} folder of the working files, {1} what the system says. */
    LOG_NO_WORKING_SPACE,
    /** {0} rows found. */
    LOG_TOO_FEW_ROWS,
    /** {0} rows whose time is not after that of the row before. */
    LOG_TIME_UNSORTED,
    /** No arguments. */
    LOG_DISTANCE_PER_COUNT_MISSING,
    /** {0} count found, {1} bits of the register. */
    LOG_COUNT_BEYOND_REGISTER,
    /** {0} bits of the register, {1} top speed, {2} longest interval, {3} travel in half the register. */
    LOG_COUNTER_AMBIGUOUS,
    /** {0} travel of the steps in mm, {1} length of the pieces in mm. */
    LINE_LONGER_THAN_PIECE,
    /** {0} travel of the steps in mm, {1} length of the pieces in mm. */
    LINE_SHORTER_THAN_PIECE,
    /** No arguments. */
    LINE_HOLD_AT_REST,
    /** {0} speed in mm/s. */
    LINE_STOP_IN_MOTION,
    /** No arguments. */
    LINE_TWO_RESTS,
    /** {0} speed at the end in mm/s. */
    LINE_NOT_CLOSED,
    /** No arguments. */
    LINE_CUT_BACKWARDS,
    /** {0} travel of the log in mm, {1} length of a piece in mm. */
    LINE_LOG_SHORT,
    /** No arguments. */
    LINE_LOG_AT_REST,
    /** No arguments. */
    LINE_NO_CYCLE,
    /** No arguments. */
    LINE_CYCLE_AND_PROFILE,
    /** No arguments. */
    LINE_STEP_UNKNOWN,
    /** {0} keys of the step, separated by commas. */
    LINE_STEP_MIXED,
    /** {0} number of steps with all repeats, {1} most that are read. */
    LINE_TOO_MANY_STEPS,
    /** {0} lower end in mm, {1} upper end in mm. */
    LINE_TOLERANCE,
    /** {0} time found in s, {1} time before it in s. */
    LINE_TIME_BACK,
    /** {0} material found, {1} nearest known one, {2} materials of the trial. */
    LINE_MATERIAL,
    /** {0} materials of the trial. */
    LINE_MATERIAL_MISSING,
    /** {0} series or piece, {1} reading found, {2} travel of the reference. */
    QUESTION_ERROR_TYPED,
    /** {0} series. */
    QUESTION_COUNTER_ZEROED,
    /** {0} series or piece, {1} speed found, {2} travel, {3} time the move would take. */
    QUESTION_SLOW_MOVE,
    /** No arguments. */
    QUESTION_SWAPPED,
    /** {0} series. */
    QUESTION_RETURN_SIGN,
    /** {0} series or piece. */
    QUESTION_SIGN_REVERSED,
    /** {0} series or piece, {1} ratio of two units that fits, such as 25.4. */
    QUESTION_SCALE,
    /** {0} series, {1} reading found, {2} travel of the reference. */
    QUESTION_DIGIT,
    /** {0} series or piece, {1} reading found, {2} travel of the reference. */
    QUESTION_COUNTER_WRAPPED,
    QUESTION_SLOPE,
    /** {0} number found, {1} decimals of all others in its column. */
    QUESTION_CUT_SHORT,
    /** {0} number whose sign may be a decimal sign or separate thousands, {1} the sign. */
    QUESTION_THOUSANDS,
    /** {0} ratio of two units that fits, such as 25.4. */
    QUESTION_LOG_SCALE,
    /** {0} ratio of two ways to count edges that fits, such as 4. */
    QUESTION_LOG_EVALUATION,
    /** No arguments. */
    QUESTION_LOG_SIGN,
    /** No arguments. */
    QUESTION_LOG_RETURN_SIGN,
    /** {0} ratio of indication to reference in the middle of all passes, such as 0. */
    QUESTION_LOG_SLOPE,
    /** {0} programmed speed, {1} lowest and {2} highest speed of the plateaus that were found. */
    QUESTION_LOG_SPEED;

    /** Returns the code as written in message bundles and in JSON, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Returns true for a probable slip that a person can confirm to be right. */
    public boolean isQuestion() {
        return name().startsWith("QUESTION_");
    }
}
