package slowproof.files.cache;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.util.zip.CRC32C;

/** A small file with its length and checksum in front. */
public final class Checked {
    private static final int MAGIC = 0x53504b31;
    private static final int FRONT = 4 + 8 + 8;
    private static final long MOST = 64L << 20;

    private Checked() {}

    /** Writes the content. */
    @FunctionalInterface
    public interface Content {
        /**
         * Writes everything.
         *
         * @throws IOException if the stream fails
         */
        void to(DataOutputStream out) throws IOException;
    }

    /**
     * Writes a file.
     *
     * @throws IOException if it cannot be written
     */
    public static void write(FileChannel channel, Content content) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (DataOutputStream out = new DataOutputStream(bytes)) {
            content.to(out);
        }
        byte[] body = bytes.toByteArray();
        ByteBuffer all = ByteBuffer.allocate(FRONT + body.length);
        all.putInt(MAGIC).putLong(body.length).putLong(checksum(body)).put(body).flip();
        while (all.hasRemaining()) {
            channel.write(all);
        }
    }

    /**
     * Reads a file.
     *
     * @throws IOException if it is not what was written
     */
    public static DataInputStream read(FileChannel channel) throws IOException {
        long size = channel.size();
        if (size < FRONT || size > MOST) {
            throw new IOException("cut");
        }
        ByteBuffer all = ByteBuffer.allocate((int) size);
        while (all.hasRemaining() && channel.read(all) >= 0) {
            // until it is whole
        }
        all.flip();
        if (all.remaining() < size || all.getInt() != MAGIC || all.getLong() != size - FRONT) {
            throw new IOException("cut");
        }
        long sum = all.getLong();
        byte[] body = new byte[all.remaining()];
        all.get(body);
        if (sum != checksum(body)) {
            throw new IOException("spoiled");
        }
        return new DataInputStream(new ByteArrayInputStream(body));
    }

    private static long checksum(byte[] body) {
        CRC32C sum = new CRC32C();
        sum.update(body);
        return sum.getValue();
    }
}
