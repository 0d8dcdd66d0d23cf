package slowproof.files.log;

/** What a log is read for. */
public enum LogPart {
    /** Sensor and reference in one file, on one clock. */
    BOTH,
    /** The sensor's file of two, or with a typed reference; a reference in it is left alone. */
    SENSOR,
    /** The reference's file of two; an indication in it is left alone. */
    REFERENCE,
    /** The speed of a line; nothing else in it is looked at but time. */
    SPEED
}
