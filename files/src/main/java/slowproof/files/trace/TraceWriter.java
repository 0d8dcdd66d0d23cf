package slowproof.files.trace;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.Channels;
import java.nio.channels.WritableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import slowproof.files.out.WholeFile;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.Recording;
import slowproof.trial.recording.RunningSpeed;
import slowproof.trial.recording.TrackRows;

/** Writes a recording as a {@link TraceFile}, in blocks of fixed size and never whole in memory. */
public final class TraceWriter {
    private static final int BUFFER = 1 << 16;

    private final WritableByteChannel channel;
    private final ByteBuffer buffer = ByteBuffer.allocateDirect(BUFFER).order(ByteOrder.LITTLE_ENDIAN);

    private TraceWriter(WritableByteChannel channel) {
        this.channel = channel;
    }

    /**
     * Writes a recording; a file of that name is replaced as a whole, so that whoever looks into the old one still can.
     *
     * @throws IOException if the file cannot be written; nothing is left of it then, nor of the one that was there
     */
    public static void write(Recording recording, Path path) throws IOException {
        try {
            WholeFile.write(path, stream -> new TraceWriter(Channels.newChannel(stream)).write(recording));
        } catch (IOException | UncheckedIOException e) {
            Files.deleteIfExists(path);
            throw e instanceof UncheckedIOException inside ? inside.getCause() : (IOException) e;
        }
    }

    private void write(Recording recording) {
        int[] interruptions = recording.breaks().stream()
                .mapToInt(Break::row)
                .sorted()
                .distinct()
                .toArray();
        double gate = RunningSpeed.usualGateS(recording);
        int present = bit(recording.hasReference(), TraceFile.Track.REFERENCE)
                | bit(recording.hasIndication(), TraceFile.Track.INDICATED)
                | bit(recording.hasDropout(), TraceFile.Track.DROPOUT);
        buffer.putLong(TraceFile.MAGIC)
                .putInt(recording.size())
                .putInt(present)
                .putInt(interruptions.length)
                .putInt(0)
                .putDouble(gate)
                .position(TraceFile.HEADER);
        for (int row : interruptions) {
            room(4);
            buffer.putInt(row);
        }
        if (interruptions.length % 2 == 1) {
            room(4);
            buffer.putInt(0);
        }
        Column time = recording.timeS();
        for (int row = 0; row < time.size(); row++) {
            room(8);
            buffer.putDouble(time.at(row));
        }
        if (recording.hasReference()) {
            speeds(recording, recording.referenceMm(), gate);
        }
        if (recording.hasIndication()) {
            speeds(recording, recording.indicationMm(), gate);
        }
        if (recording.hasDropout()) {
            Values values = new Values(recording.size());
            for (int row = 0; row < recording.size(); row++) {
                values.add(row, recording.dropout().at(row));
            }
            values.finish();
        }
        flush();
    }

    private static int bit(boolean there, TraceFile.Track track) {
        return there ? track.bit() : 0;
    }

    private void speeds(Recording recording, Column track, double gate) {
        Values values = new Values(recording.size());
        RunningSpeed.each(recording, track, gate, (row, timeS, mmPerS) -> values.add(row, mmPerS));
        values.finish();
    }

    /** The values of a track on their way out, with the extremes of each block, which follow them. */
    private final class Values {
        private final float[] lows;
        private final float[] highs;

        Values(int rows) {
            lows = new float[TraceFile.blocks(rows)];
            highs = new float[lows.length];
            Arrays.fill(lows, Float.NaN);
            Arrays.fill(highs, Float.NaN);
        }

        void add(int row, double value) {
            float single = (float) value;
            int block = row / TrackRows.BLOCK;
            lows[block] = Float.isNaN(lows[block]) || single < lows[block] ? single : lows[block];
            highs[block] = Float.isNaN(highs[block]) || single > highs[block] ? single : highs[block];
            put(single);
        }

        void finish() {
            for (float low : lows) {
                put(low);
            }
            for (float high : highs) {
                put(high);
            }
        }
    }

    private void put(float value) {
        room(4);
        buffer.putFloat(value);
    }

    private void room(int bytes) {
        if (buffer.remaining() < bytes) {
            flush();
        }
    }

    private void flush() {
        buffer.flip();
        try {
            while (buffer.hasRemaining()) {
                channel.write(buffer);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        buffer.clear();
    }
}
