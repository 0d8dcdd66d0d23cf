package slowproof.files.log;

import java.io.IOException;
import java.io.InputStream;

/** Bytes in pairs, as UTF-16 has them: one without its partner at the very end, where a log was cut, is left out. */
final class WholePairs extends InputStream {
    private final InputStream in;

    /** Second byte of a pair whose first is handed out, below zero for none. */
    private int second = -1;

    WholePairs(InputStream in) {
        this.in = in;
    }

    @Override
    public int read() throws IOException {
        int next = second;
        if (next >= 0) {
            second = -1;
            return next;
        }
        int first = in.read();
        second = first < 0 ? -1 : in.read();
        return second < 0 ? -1 : first;
    }

    @Override
    public int read(byte[] target, int from, int wanted) throws IOException {
        if (wanted == 0) {
            return 0;
        }
        if (wanted == 1 || second >= 0) {
            int one = read();
            if (one < 0) {
                return -1;
            }
            target[from] = (byte) one;
            return 1;
        }
        int count = in.read(target, from, wanted & ~1);
        if (count < 0 || count % 2 == 0) {
            return count;
        }
        int partner = in.read();
        if (partner < 0) {
            return count == 1 ? -1 : count - 1;
        }
        target[from + count] = (byte) partner;
        return count + 1;
    }

    @Override
    public void close() throws IOException {
        in.close();
    }
}
