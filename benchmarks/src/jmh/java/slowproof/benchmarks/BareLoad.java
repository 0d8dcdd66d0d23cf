package slowproof.benchmarks;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;

/**
 * The least that any program in Java has to do with the log of {@link LongLog}: its numbers into arrays on two threads,
 * half the file each, and where asked for its fingerprint, meanwhile, on a third. Knows beforehand that there are four
 * columns of plain decimals, checks nothing and finds nothing; a yardstick for whole processes.
 *
 * <p>Words: the log, and {@code hash} for the fingerprint too. Prints the sum of all numbers.
 */
public final class BareLoad {
    private static final int COLUMNS = 4;
    private static final int BLOCK = 1 << 20;
    private static final double[] TENS = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9};

    private BareLoad() {}

    /** Loads. */
    public static void main(String[] words) throws IOException, InterruptedException, NoSuchAlgorithmException {
        try (FileChannel channel = FileChannel.open(Path.of(words[0]))) {
            long size = channel.size();
            long half = afterLine(channel, size / 2);
            Part[] parts = {new Part(channel, afterLine(channel, 0), half), new Part(channel, half, size)};
            for (Part part : parts) {
                part.start();
            }
            if (words.length > 1) {
                hash(channel, MessageDigest.getInstance("SHA-256"));
            }
            double sum = 0;
            for (Part part : parts) {
                part.join();
                for (double[] column : part.columns) {
                    sum += Arrays.stream(column, 0, part.rows).sum();
                }
            }
            System.out.println(sum);
        }
    }

    private static void hash(FileChannel channel, MessageDigest digest) throws IOException {
        byte[] bytes = new byte[BLOCK];
        long at = 0;
        for (int read = channel.read(ByteBuffer.wrap(bytes), at);
                read > 0;
                read = channel.read(ByteBuffer.wrap(bytes), at)) {
            // a method that is called often is compiled soon
            for (int from = 0; from < read; from += 8192) {
                digest.update(bytes, from, Math.min(8192, read - from));
            }
            at += read;
        }
        System.out.println(Arrays.hashCode(digest.digest()));
    }

    private static long afterLine(FileChannel channel, long from) throws IOException {
        byte[] bytes = new byte[256];
        channel.read(ByteBuffer.wrap(bytes), from);
        int at = 0;
        while (bytes[at] != '\n') {
            at++;
        }
        return from + at + 1;
    }

    /** One half of the file. */
    private static final class Part extends Thread {
        private final FileChannel channel;
        private final long from;
        private final long to;
        private final double[][] columns;
        private int rows;

        Part(FileChannel channel, long from, long to) {
            this.channel = channel;
            this.from = from;
            this.to = to;
            // a line has 30 bytes at least
            this.columns = new double[COLUMNS][(int) ((to - from) / 30)];
        }

        @Override
        public void run() {
            byte[] bytes = new byte[BLOCK + 256];
            try {
                for (long at = from; at < to; ) {
                    int wanted = (int) Math.min(BLOCK, to - at);
                    int read = channel.read(ByteBuffer.wrap(bytes, 0, wanted), at);
                    while (bytes[read - 1] != '\n') {
                        read--;
                    }
                    int place = 0;
                    while (place < read) {
                        place = line(bytes, place);
                    }
                    at += read;
                }
            } catch (IOException e) {
                throw new IllegalStateException(e);
            }
        }

        private int line(byte[] bytes, int start) {
            int at = start;
            for (int k = 0; k < COLUMNS; k++) {
                boolean negative = bytes[at] == '-';
                if (negative) {
                    at++;
                }
                long digits = 0;
                int point = -1;
                byte sign = bytes[at];
                while (sign >= '-') {
                    if (sign == '.') {
                        point = at;
                    } else {
                        digits = 10 * digits + sign - '0';
                    }
                    sign = bytes[++at];
                }
                double value = point < 0 ? digits : digits / TENS[at - point - 1];
                columns[k][rows] = negative ? -value : value;
                at++;
            }
            rows++;
            return at;
        }
    }
}
