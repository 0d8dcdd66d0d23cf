package slowproof.trial;

/** How the sensor's counter was handled between moves. */
public enum ReadingMode {
    /** Readings run on; a pass is the difference of two of them. */
    CUMULATIVE,
    /** The counter was set to zero before each move; a reading is the indication of that move, closure is not available. */
    ZEROED
}
