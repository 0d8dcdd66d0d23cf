package slowproof.trial.recording;

/**
 * Values of one quantity over time, row by row, wherever they are kept, with the least and the greatest of every
 * {@link #BLOCK} rows known beforehand.
 */
public interface TrackRows {
    /** Rows in a block. */
    int BLOCK = 64;

    /** Returns the number of rows. */
    int size();

    /** Returns the time of a row in s. */
    double timeS(int row);

    /** Returns the value of a row; NaN where there is none. */
    double value(int row);

    /** Returns the least value of the rows from {@code block * BLOCK} on; NaN when none of them has a value. */
    double blockLow(int block);

    /** Returns the greatest value of the rows from {@code block * BLOCK} on; NaN when none of them has a value. */
    double blockHigh(int block);
}
