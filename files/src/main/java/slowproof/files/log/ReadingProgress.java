package slowproof.files.log;

/** Learns how far the reading of a log has come; told often, by one thread at a time. */
@FunctionalInterface
public interface ReadingProgress {
    /** Nobody wants to know. */
    ReadingProgress NONE = (file, bytes, size) -> {};

    /**
     * Learns about one log.
     *
     * @param file what messages call it
     * @param bytes bytes read so far
     * @param size size of the file in bytes
     */
    void at(String file, long bytes, long size);
}
