package slowproof.files.trace;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.DoubleBuffer;
import java.nio.FloatBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.trial.recording.TrackRows;

/**
 * A recording in a file of its own, mapped into memory piece by piece as it is looked at, so that millions of rows
 * take no room on the heap: times, speeds and dropouts, with the extremes of every block. The file is made from the
 * logs and can be made again.
 *
 * <p>Layout, little-endian: a header of 64 bytes (magic, rows, tracks, interruptions, averaging time), the rows that do
 * not follow on the one before as 32-bit numbers, then times as doubles, and of each track values, least and greatest
 * per block as floats.
 */
public final class TraceFile {
    static final long MAGIC = 0x534c4f5754523031L;
    static final int HEADER = 64;

    /** What a track holds. */
    public enum Track {
        /** Speed of the reference in mm/s. */
        REFERENCE(1),
        /** Speed that the sensor shows in mm/s. */
        INDICATED(2),
        /** Share of the time without a valid signal, a ratio from 0 to 1. */
        DROPOUT(4);

        private final int bit;

        Track(int bit) {
            this.bit = bit;
        }

        /** Returns the bit that says in the header that the track is there. */
        int bit() {
            return bit;
        }
    }

    private final int rows;
    private final double gateS;
    private final int[] interruptions;
    private final DoubleBuffer times;
    private final Map<Track, TrackRows> tracks;

    private TraceFile(int rows, double gateS, int[] interruptions, DoubleBuffer times, Map<Track, TrackRows> tracks) {
        this.rows = rows;
        this.gateS = gateS;
        this.interruptions = interruptions;
        this.times = times;
        this.tracks = tracks;
    }

    /**
     * Opens a file. It may be removed while it is open on systems that allow it.
     *
     * @throws IOException if it is not there, or not as it was written
     */
    public static TraceFile open(Path path) throws IOException {
        try (FileChannel channel = FileChannel.open(path)) {
            ByteBuffer header = read(channel, 0, HEADER);
            if (header.getLong() != MAGIC) {
                throw new IOException(path + " is no kept recording");
            }
            int rows = header.getInt();
            int present = header.getInt();
            int count = header.getInt();
            header.getInt();
            double gateS = header.getDouble();
            int[] interruptions = new int[count];
            read(channel, HEADER, 4L * count).asIntBuffer().get(interruptions);
            long at = start(count);
            DoubleBuffer times = map(channel, at, 8L * rows).asDoubleBuffer();
            at += 8L * rows;
            Map<Track, TrackRows> tracks = new EnumMap<>(Track.class);
            for (Track track : Track.values()) {
                if ((present & track.bit()) == 0) {
                    continue;
                }
                FloatBuffer values = map(channel, at, 4L * rows).asFloatBuffer();
                at += 4L * rows;
                // looked at for every window, and small: on the heap they are quicker to reach
                float[] lows = floats(channel, at, blocks(rows));
                at += 4L * blocks(rows);
                float[] highs = floats(channel, at, blocks(rows));
                at += 4L * blocks(rows);
                tracks.put(track, new Mapped(times, values, lows, highs));
            }
            return new TraceFile(rows, gateS, interruptions, times, tracks);
        }
    }

    /** Returns where the times begin: after header and interruptions, at a multiple of 8 bytes. */
    static long start(int interruptions) {
        return HEADER + (4L * interruptions + 7) / 8 * 8;
    }

    static int blocks(int rows) {
        return (rows + TrackRows.BLOCK - 1) / TrackRows.BLOCK;
    }

    private static float[] floats(FileChannel channel, long at, int count) throws IOException {
        float[] floats = new float[count];
        map(channel, at, 4L * count).asFloatBuffer().get(floats);
        return floats;
    }

    private static ByteBuffer read(FileChannel channel, long at, long size) throws IOException {
        ByteBuffer buffer = ByteBuffer.allocate(Math.toIntExact(size)).order(ByteOrder.LITTLE_ENDIAN);
        while (buffer.hasRemaining()) {
            if (channel.read(buffer, at + buffer.position()) < 0) {
                throw new EOFException("a kept recording ends early");
            }
        }
        return buffer.flip();
    }

    private static ByteBuffer map(FileChannel channel, long at, long size) throws IOException {
        if (at + size > channel.size()) {
            throw new EOFException("a kept recording ends early");
        }
        return channel.map(FileChannel.MapMode.READ_ONLY, at, size).order(ByteOrder.LITTLE_ENDIAN);
    }

    /** Returns the number of rows. */
    public int rows() {
        return rows;
    }

    /** Returns the time over which speeds are averaged, in s. */
    public double gateS() {
        return gateS;
    }

    /** Returns the rows that do not follow on the one before, ascending. */
    public int[] interruptions() {
        return interruptions.clone();
    }

    /** Returns the time of a row in s. */
    public double timeS(int row) {
        return times.get(row);
    }

    /** Returns a track, or null when the recording has none of this kind. */
    public @Nullable TrackRows track(Track track) {
        return tracks.get(track);
    }

    private static final class Mapped implements TrackRows {
        private final DoubleBuffer times;
        private final FloatBuffer values;
        private final float[] lows;
        private final float[] highs;

        Mapped(DoubleBuffer times, FloatBuffer values, float[] lows, float[] highs) {
            this.times = times;
            this.values = values;
            this.lows = lows;
            this.highs = highs;
        }

        @Override
        public int size() {
            return values.limit();
        }

        @Override
        public double timeS(int row) {
            return times.get(row);
        }

        @Override
        public double value(int row) {
            return values.get(row);
        }

        @Override
        public double blockLow(int block) {
            return lows[block];
        }

        @Override
        public double blockHigh(int block) {
            return highs[block];
        }
    }
}
