package slowproof.files.log;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.function.LongConsumer;

/** Tells how many bytes have been read. */
final class ObservedInput extends FilterInputStream {
    private final LongConsumer told;
    private long bytes;

    ObservedInput(InputStream in, LongConsumer told) {
        super(in);
        this.told = told;
    }

    @Override
    public int read() throws IOException {
        int read = super.read();
        tell(read < 0 ? 0 : 1);
        return read;
    }

    @Override
    public int read(byte[] into, int from, int length) throws IOException {
        int read = super.read(into, from, length);
        tell(read);
        return read;
    }

    private void tell(int read) {
        if (read > 0) {
            bytes += read;
            told.accept(bytes);
        }
    }
}
