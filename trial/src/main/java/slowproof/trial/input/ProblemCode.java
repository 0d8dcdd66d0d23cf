package slowproof.trial.input;

import java.util.Locale;

/**
 * Everything that can be wrong with input. The key of each sentence in the message bundles is
 * {@code problem.} followed by {@link #key()}.
 */
public enum ProblemCode {
    FILE_NOT_FOUND,
    FILE_NOT_READABLE,
    FILE_EMPTY,
    HEADER_ONLY,
    TEXT_ENCODING,
    COLUMN_MISSING,
    COLUMN_TWICE,
    UNKNOWN_UNIT,
    UNKNOWN_COLUMN,
    NOT_A_NUMBER,
    DECIMAL_COMMA,
    NOT_FINITE,
    FIELD_COUNT,
    FIELD_COUNT_COMMA,
    VALUE_MISSING,
    NOT_POSITIVE,
    NEGATIVE,
    OUT_OF_RANGE,
    BAD_TIME,
    YAML_SYNTAX,
    YAML_KIND,
    UNKNOWN_KEY,
    KEY_MISSING,
    KEY_TWICE,
    UNKNOWN_CHOICE,
    NO_DATA,
    LIMIT_ZERO,
    SERIES_MIXED,
    SERIES_SPLIT,
    SERIES_TOO_SHORT,
    TOO_FEW_PASSES,
    ZERO_STROKE,
    EXCLUDED_PASS_UNKNOWN,
    PIECE_TWICE,
    QUESTION_ERROR_TYPED,
    QUESTION_COUNTER_ZEROED,
    QUESTION_SLOW_MOVE,
    QUESTION_SWAPPED,
    QUESTION_RETURN_SIGN,
    QUESTION_SIGN_REVERSED,
    QUESTION_SCALE,
    QUESTION_DIGIT,
    QUESTION_SLOPE;

    /** Returns the code as written in message bundles and in JSON, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
