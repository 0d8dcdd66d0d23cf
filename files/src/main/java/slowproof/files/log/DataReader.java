package slowproof.files.log;

import java.io.IOException;
import java.io.Reader;

/** The text of a log from its data on: the part already read, then the rest, without the lines above the data. */
final class DataReader extends Reader {
    private final char[] start;
    private final int length;
    private final Reader rest;
    private int at;
    private char last;

    /**
     * Creates the reader.
     *
     * @param start beginning of the log; the lines to leave out end in it
     * @param length characters in {@code start}
     * @param rest what follows
     * @param skippedLines lines to leave out
     */
    DataReader(char[] start, int length, Reader rest, long skippedLines) {
        this.start = start;
        this.length = length;
        this.rest = rest;
        for (long line = 0; line < skippedLines; line++) {
            while (at < length && start[at] != '\n' && start[at] != '\r') {
                at++;
            }
            at += at + 1 < length && start[at] == '\r' && start[at + 1] == '\n' ? 2 : 1;
        }
        at = Math.min(at, length);
    }

    @Override
    public int read(char[] target, int from, int wanted) throws IOException {
        int count = at == length ? rest.read(target, from, wanted) : Math.min(wanted, length - at);
        if (at < length) {
            System.arraycopy(start, at, target, from, count);
            at += count;
        }
        if (count > 0) {
            last = target[from + count - 1];
        }
        return count;
    }

    /** Returns the last sign handed out so far, a zero before the first. */
    char last() {
        return last;
    }

    /** Does nothing: the log is closed by who opened it, after its fingerprint is taken. */
    @Override
    public void close() {}
}
