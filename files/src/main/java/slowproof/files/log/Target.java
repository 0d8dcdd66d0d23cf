package slowproof.files.log;

import org.jspecify.annotations.Nullable;
import slowproof.trial.input.ProblemCode;

/**
 * A column that is read, and how.
 *
 * @param role what it holds
 * @param index its place in a row, from 0
 * @param heading its heading, empty when there is none
 * @param unit its unit
 * @param factor what a number is multiplied with
 * @param divisor what it is then divided by
 * @param stamps true when it holds time stamps instead of numbers
 * @param threshold for levels, the value from which on it is high or valid; or null
 */
record Target(
        ColumnRole role,
        int index,
        String heading,
        LogUnit unit,
        double factor,
        double divisor,
        boolean stamps,
        @Nullable Double threshold) {
    /** Returns how it is told to a person. */
    ReadAs.Taken taken() {
        return new ReadAs.Taken(role, index + 1, heading.strip(), unit.symbol());
    }

    /** Returns true when a number in the cell is what the recording holds. */
    boolean asItStands() {
        return switch (role) {
            case TIME, READING, REFERENCE, SPEED -> factor == 1 && divisor == 1;
            case COUNT -> true;
            case DROPOUT, CHANNEL_A, CHANNEL_B, VALID, LEVEL -> false;
        };
    }

    /**
     * Returns what the recording holds for a number in the cell, in s, mm, mm/s, counts, levels or a ratio; it may be one
     * that is not {@link #permitted}.
     */
    double value(double number) {
        return switch (role) {
            case TIME, READING, REFERENCE, SPEED, DROPOUT -> number * factor / divisor;
            case COUNT -> number;
            case CHANNEL_A, CHANNEL_B -> number > (threshold == null ? 0.5 : threshold) ? 1 : 0;
            case VALID -> number == 1 ? 0 : number == 0 ? 1 : Double.NaN;
            case LEVEL -> threshold != null && number < threshold ? 1 : 0;
        };
    }

    /** Returns true when a recording may hold a value: not a share beyond the whole, a flag that is none, a part of a count. */
    boolean permitted(double value) {
        return switch (role) {
            case DROPOUT, VALID -> value >= 0 && value <= 1;
            case COUNT -> value == Math.rint(value);
            case TIME, READING, REFERENCE, SPEED, CHANNEL_A, CHANNEL_B, LEVEL -> true;
        };
    }

    /** Returns what is wrong with a value that is not {@link #permitted}. */
    ProblemCode refusal() {
        return switch (role) {
            case VALID -> ProblemCode.LOG_FLAG;
            case COUNT -> ProblemCode.LOG_COUNT_NOT_WHOLE;
            case TIME, READING, REFERENCE, SPEED, CHANNEL_A, CHANNEL_B, LEVEL, DROPOUT -> ProblemCode.OUT_OF_RANGE;
        };
    }
}
