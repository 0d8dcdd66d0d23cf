package slowproof.files.log;

import org.jspecify.annotations.Nullable;
import slowproof.trial.Check;

/**
 * Where a quantity stands in a log and how it is meant. Either the heading or the number is given.
 *
 * @param heading heading as written in the file, upper and lower case alike; or null
 * @param number number of the column from 1; or null
 * @param unit unit such as {@code ms} or {@code deg}; null to take it from the heading
 * @param circumferenceMm for an angle, the circumference of the roll in mm, above zero; or null
 * @param threshold for a signal level, the value below which it counts as dropout; or null
 */
public record ColumnSource(
        @Nullable String heading,
        @Nullable Integer number,
        @Nullable String unit,
        @Nullable Double circumferenceMm,
        @Nullable Double threshold) {
    /** Checks the parts. */
    public ColumnSource {
        if ((heading == null) == (number == null)) {
            throw new IllegalArgumentException("a column is named by its heading or by its number");
        }
        if (number != null && number < 1) {
            throw new IllegalArgumentException("columns are numbered from 1, found " + number);
        }
        if (circumferenceMm != null) {
            Check.positive(circumferenceMm, "circumference", "mm");
        }
        if (threshold != null) {
            Check.finite(threshold, "threshold", "");
        }
    }

    /** Returns the column of that number, counted from 1. */
    public static ColumnSource number(int number) {
        return new ColumnSource(null, number, null, null, null);
    }

    /** Returns the column of that heading. */
    public static ColumnSource heading(String heading) {
        return new ColumnSource(heading, null, null, null, null);
    }

    /** Returns the same column in that unit. */
    public ColumnSource in(String symbol) {
        return new ColumnSource(heading, number, symbol, circumferenceMm, threshold);
    }

    /** Returns the same column as the angle of a roll of that circumference in mm. */
    public ColumnSource onRoll(double mm) {
        return new ColumnSource(heading, number, unit, mm, threshold);
    }

    /** Returns the same column as a level that counts as dropout below that value. */
    public ColumnSource below(double value) {
        return new ColumnSource(heading, number, unit, circumferenceMm, value);
    }
}
