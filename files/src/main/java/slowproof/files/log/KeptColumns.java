package slowproof.files.log;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.DoubleBuffer;
import java.nio.MappedByteBuffer;
import java.nio.channels.FileChannel;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.zip.CRC32C;
import org.jspecify.annotations.Nullable;
import slowproof.files.cache.CacheFolder;
import slowproof.files.cache.NoteCodec;
import slowproof.trial.note.Note;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.ColumnSpace;

/**
 * Columns of a log as they were read, kept in a file: the numbers of each column one after the other, eight bytes
 * each with the least one first, then how the log was read, then length and checksum of that. Each column has a
 * checksum too. Kept are the columns before anything was mended, so every setting of an evaluation can use them.
 *
 * @param readAs how the log was read
 * @param notes remarks on the reading
 * @param firstLine line of the first row in the log; every next row stands a line below
 * @param columns numbers in the order of the columns of {@code readAs}
 */
record KeptColumns(ReadAs readAs, List<Note> notes, long firstLine, List<Column> columns) {
    private static final long MAGIC = 0x53504b2d636f6c31L;
    private static final int END = 4 + 8 + 8;
    private static final int CHUNK = 1 << 16;

    /** Returns the name under which the columns of a raw file are kept, when read for a request. */
    static String name(String sha256, LogRequest request) {
        return CacheFolder.key("columns/6", sha256, request.readingKey()) + ".columns";
    }

    /** Returns what is kept under a name, or null. */
    static @Nullable KeptColumns get(CacheFolder cache, String name, ColumnSpace space) {
        return cache.get(name, channel -> read(channel, space));
    }

    void put(CacheFolder cache, String name) {
        cache.putMeanwhile(name, this::write);
    }

    private void write(FileChannel channel) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (DataOutputStream out = new DataOutputStream(bytes)) {
            out.writeInt(columns.get(0).size());
            out.writeInt(columns.size());
            for (Column column : columns) {
                out.writeLong(write(column, channel));
            }
            out.writeLong(firstLine);
            readAs(out);
            NoteCodec.write(out, notes);
        }
        byte[] about = bytes.toByteArray();
        ByteBuffer end = ByteBuffer.allocate(about.length + END);
        end.put(about)
                .putInt(about.length)
                .putLong(checksum(about))
                .putLong(MAGIC)
                .flip();
        writeAll(channel, end);
    }

    private static long write(Column column, FileChannel channel) throws IOException {
        ByteBuffer chunk = ByteBuffer.allocateDirect(8 * CHUNK).order(ByteOrder.LITTLE_ENDIAN);
        CRC32C sum = new CRC32C();
        for (int row = 0; row < column.size(); row += CHUNK) {
            chunk.clear();
            chunk.asDoubleBuffer().put(column.toArray(row, Math.min(row + CHUNK, column.size())));
            chunk.limit(8 * Math.min(CHUNK, column.size() - row));
            sum.update(chunk.duplicate());
            writeAll(channel, chunk);
        }
        return sum.getValue();
    }

    private static void writeAll(FileChannel channel, ByteBuffer bytes) throws IOException {
        while (bytes.hasRemaining()) {
            channel.write(bytes);
        }
    }

    private static void fill(FileChannel channel, long from, ByteBuffer bytes) throws IOException {
        long start = from - bytes.position();
        while (bytes.hasRemaining()) {
            if (channel.read(bytes, start + bytes.position()) < 0) {
                throw new IOException("cut");
            }
        }
        bytes.flip();
    }

    private static long checksum(byte[] bytes) {
        CRC32C sum = new CRC32C();
        sum.update(bytes);
        return sum.getValue();
    }

    private static KeptColumns read(FileChannel channel, ColumnSpace space) throws IOException {
        long size = channel.size();
        ByteBuffer end = ByteBuffer.allocate(END);
        fill(channel, Math.max(size - END, 0), end);
        int length = end.getInt();
        long sum = end.getLong();
        if (end.getLong() != MAGIC || length <= 0 || length > size - END) {
            throw new IOException("cut");
        }
        byte[] about = new byte[length];
        fill(channel, size - END - length, ByteBuffer.wrap(about));
        if (checksum(about) != sum) {
            throw new IOException("spoiled");
        }
        try (DataInputStream in = new DataInputStream(new ByteArrayInputStream(about))) {
            int rows = in.readInt();
            int count = in.readInt();
            if (8L * rows * count != size - END - length) {
                throw new IOException("cut");
            }
            List<Column> columns = new ArrayList<>();
            for (int k = 0; k < count; k++) {
                columns.add(column(channel, 8L * rows * k, rows, in.readLong(), space));
            }
            long firstLine = in.readLong();
            ReadAs readAs = readAs(in);
            return new KeptColumns(readAs, NoteCodec.read(in), firstLine, columns);
        }
    }

    /** Returns a column that lies in the file where it is; the system reads what is needed and forgets it again. */
    private static Column mapped(FileChannel channel, long from, int rows, long sum, ColumnSpace space)
            throws IOException {
        List<DoubleBuffer> parts = new ArrayList<>();
        CRC32C found = new CRC32C();
        for (int row = 0; row < rows; row += Column.PART) {
            int count = Math.min(Column.PART, rows - row);
            MappedByteBuffer part = channel.map(FileChannel.MapMode.READ_ONLY, from + 8L * row, 8L * count);
            found.update(part.duplicate());
            parts.add(part.order(ByteOrder.LITTLE_ENDIAN).asDoubleBuffer());
        }
        if (found.getValue() != sum) {
            throw new IOException("spoiled");
        }
        return Column.of(parts, rows, space);
    }

    private static Column column(FileChannel channel, long from, int rows, long sum, ColumnSpace space)
            throws IOException {
        if (rows > space.heapRows()) {
            return mapped(channel, from, rows, sum, space);
        }
        Column.Builder column = new Column.Builder(rows, space);
        ByteBuffer chunk = ByteBuffer.allocateDirect(8 * CHUNK).order(ByteOrder.LITTLE_ENDIAN);
        double[] numbers = new double[CHUNK];
        CRC32C found = new CRC32C();
        for (int row = 0; row < rows; row += CHUNK) {
            int count = Math.min(CHUNK, rows - row);
            chunk.clear().limit(8 * count);
            fill(channel, from + 8L * row, chunk);
            found.update(chunk.duplicate());
            chunk.asDoubleBuffer().get(numbers, 0, count);
            column.add(numbers, count);
        }
        if (found.getValue() != sum) {
            throw new IOException("spoiled");
        }
        return column.build();
    }

    private void readAs(DataOutputStream out) throws IOException {
        out.writeUTF(readAs.file());
        out.writeUTF(readAs.encoding());
        out.writeChar(readAs.separator());
        out.writeChar(readAs.decimal());
        out.writeInt(readAs.headerRows());
        out.writeInt(readAs.columns().size());
        for (ReadAs.Taken taken : readAs.columns()) {
            out.writeUTF(taken.role().name());
            out.writeInt(taken.number());
            out.writeUTF(taken.heading());
            out.writeUTF(taken.unit());
        }
        out.writeInt(readAs.ignored().size());
        for (String heading : readAs.ignored()) {
            out.writeUTF(heading);
        }
        out.writeLong(readAs.rows());
        out.writeInt(readAs.firstRows().size());
        for (List<Double> row : readAs.firstRows()) {
            for (Double value : row) {
                out.writeDouble(Objects.requireNonNull(value));
            }
        }
    }

    private static ReadAs readAs(DataInputStream in) throws IOException {
        String file = in.readUTF();
        String encoding = in.readUTF();
        char separator = in.readChar();
        char decimal = in.readChar();
        int headerRows = in.readInt();
        List<ReadAs.Taken> columns = new ArrayList<>();
        int count = in.readInt();
        for (int i = 0; i < count; i++) {
            columns.add(new ReadAs.Taken(ColumnRole.valueOf(in.readUTF()), in.readInt(), in.readUTF(), in.readUTF()));
        }
        List<String> ignored = new ArrayList<>();
        int others = in.readInt();
        for (int i = 0; i < others; i++) {
            ignored.add(in.readUTF());
        }
        long rows = in.readLong();
        List<List<Double>> firstRows = new ArrayList<>();
        int shown = in.readInt();
        for (int i = 0; i < shown; i++) {
            List<Double> row = new ArrayList<>();
            for (int k = 0; k < count; k++) {
                row.add(in.readDouble());
            }
            firstRows.add(row);
        }
        return new ReadAs(file, encoding, separator, decimal, headerRows, columns, ignored, rows, firstRows);
    }
}
