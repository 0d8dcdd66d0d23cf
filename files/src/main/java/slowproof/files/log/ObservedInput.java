package slowproof.files.log;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** Tells how far a file has been read. */
final class ObservedInput extends FilterInputStream {
    private final String file;
    private final long size;
    private final ReadingProgress progress;
    private long bytes;

    ObservedInput(InputStream in, String file, long size, ReadingProgress progress) {
        super(in);
        this.file = file;
        this.size = size;
        this.progress = progress;
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
            progress.at(file, bytes, size);
        }
    }
}
