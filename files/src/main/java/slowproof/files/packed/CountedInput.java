package slowproof.files.packed;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** Counts the bytes that pass, and tells how many there were. */
public final class CountedInput extends FilterInputStream {
    private final Listener listener;
    private long passed;

    /** Learns how many bytes have passed. */
    @FunctionalInterface
    public interface Listener {
        /**
         * Learns it after each reading.
         *
         * @throws IOException if no more must be read
         */
        void passed(long bytes) throws IOException;
    }

    /** Counts what is read of a stream. */
    public CountedInput(InputStream in, Listener listener) {
        super(in);
        this.listener = listener;
    }

    private void count(long bytes) throws IOException {
        passed += Math.max(bytes, 0);
        listener.passed(passed);
    }

    @Override
    public int read() throws IOException {
        int one = super.read();
        count(one < 0 ? 0 : 1);
        return one;
    }

    @Override
    public int read(byte[] target, int from, int length) throws IOException {
        int read = super.read(target, from, length);
        count(read);
        return read;
    }

    @Override
    public long skip(long bytes) throws IOException {
        long skipped = super.skip(bytes);
        count(skipped);
        return skipped;
    }
}
