package slowproof.app;

import java.io.PrintStream;
import java.util.function.LongSupplier;
import slowproof.files.log.ReadingProgress;
import slowproof.wording.Wording;

/** A line for a person at a terminal that says how far a long log is read, and goes away when it is done. */
final class ProgressLine implements ReadingProgress, AutoCloseable {
    private static final long FIRST_NS = 1_000_000_000L;
    private static final long NEXT_NS = 200_000_000L;
    private static final int MOST = 36;
    private static final String TO_THE_START_AND_EMPTY = "\r\u001b[K";

    private final PrintStream err;
    private final Wording wording;
    private final LongSupplier nanoTime;
    private long nextNs;
    private boolean shown;
    private boolean closed;

    ProgressLine(PrintStream err, Wording wording, LongSupplier nanoTime) {
        this.err = err;
        this.wording = wording;
        this.nanoTime = nanoTime;
        this.nextNs = nanoTime.getAsLong() + FIRST_NS;
    }

    @Override
    public synchronized void at(String file, long bytes, long size) {
        long now = nanoTime.getAsLong();
        if (closed || now - nextNs < 0) {
            return;
        }
        nextNs = now + NEXT_NS;
        shown = true;
        long percent = size > 0 ? Math.min(100 * bytes / size, 100) : 0;
        err.print(TO_THE_START_AND_EMPTY + wording.text("reading.progress", shortened(file), percent, size >> 20));
        err.flush();
    }

    /** A line that does not fit into the terminal could not be taken back. */
    private static String shortened(String file) {
        String name = file.substring(file.lastIndexOf('/') + 1);
        return name.length() > MOST ? "…" + name.substring(name.length() - MOST) : name;
    }

    @Override
    public synchronized void close() {
        closed = true;
        if (shown) {
            err.print(TO_THE_START_AND_EMPTY);
            err.flush();
        }
    }
}
