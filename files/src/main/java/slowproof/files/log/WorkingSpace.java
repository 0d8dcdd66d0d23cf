package slowproof.files.log;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.DoubleBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.ColumnSpace;

/**
 * Keeps long columns in files that have no name any more: the system holds what is in use in memory and the rest on disk,
 * so a log may be larger than the memory. The files vanish with the process, even one that is killed.
 */
final class WorkingSpace implements ColumnSpace {
    /** Columns that a recording takes while it is read and cut: time, count, reference, dropout, indication, and as many joined. */
    private static final int COLUMNS = 8;

    /** Share of the heap that columns may take. */
    private static final int SHARE = 3;

    private final String source;
    private final Supplier<Path> where;
    private final int heapRows;

    private WorkingSpace(String source, Supplier<Path> where, int heapRows) {
        this.source = source;
        this.where = where;
        this.heapRows = heapRows;
    }

    /**
     * Returns the space for a log, sized by the heap of this process.
     *
     * @param source name of the log, for messages
     * @param where folder of the files, asked for when one is needed
     */
    static WorkingSpace of(String source, Supplier<Path> where) {
        long rows = Runtime.getRuntime().maxMemory() / SHARE / COLUMNS / Double.BYTES;
        return of(source, where, (int) Math.min(rows, Integer.MAX_VALUE - 8));
    }

    /** Returns the space for a log whose columns stay in the heap up to so many rows. */
    static WorkingSpace of(String source, Supplier<Path> where, int heapRows) {
        return new WorkingSpace(source, where, heapRows);
    }

    @Override
    public int heapRows() {
        return heapRows;
    }

    @Override
    public Room open() {
        Path folder = where.get();
        try {
            Files.createDirectories(folder);
            Path file = Files.createTempFile(folder, "columns", ".part");
            // the name is gone at once where the system allows that, else when the file is closed
            return new FileRoom(
                    FileChannel.open(
                            file,
                            StandardOpenOption.READ,
                            StandardOpenOption.WRITE,
                            StandardOpenOption.DELETE_ON_CLOSE),
                    folder);
        } catch (IOException e) {
            throw noRoom(folder, e);
        }
    }

    private BadInputException noRoom(Path folder, IOException cause) {
        return BadInputException.of(
                ProblemCode.LOG_NO_WORKING_SPACE,
                SourcePosition.ofFile(source),
                folder.toString(),
                String.valueOf(cause.getMessage()));
    }

    /** One column in one file, least byte first. */
    private final class FileRoom implements Room {
        private static final int CHUNK = 1 << 16;

        private final FileChannel channel;
        private final Path folder;
        private final ByteBuffer chunk =
                ByteBuffer.allocateDirect(Double.BYTES * CHUNK).order(ByteOrder.LITTLE_ENDIAN);
        private long rows;

        FileRoom(FileChannel channel, Path folder) {
            this.channel = channel;
            this.folder = folder;
        }

        @Override
        public void append(double[] values, int count) {
            try {
                for (int from = 0; from < count; from += CHUNK) {
                    int length = Math.min(CHUNK, count - from);
                    chunk.clear().limit(Double.BYTES * length);
                    chunk.asDoubleBuffer().put(values, from, length);
                    // written, not mapped: a full disk is then told instead of ending the process
                    while (chunk.hasRemaining()) {
                        channel.write(chunk);
                    }
                }
                rows += count;
            } catch (IOException e) {
                throw noRoom(folder, e);
            }
        }

        @Override
        public List<DoubleBuffer> finish() {
            List<DoubleBuffer> parts = new ArrayList<>();
            try (FileChannel whole = channel) {
                for (long from = 0; from < rows; from += Column.PART) {
                    long length = Math.min(Column.PART, rows - from);
                    parts.add(whole.map(FileChannel.MapMode.READ_ONLY, Double.BYTES * from, Double.BYTES * length)
                            .order(ByteOrder.LITTLE_ENDIAN)
                            .asDoubleBuffer());
                }
                return parts;
            } catch (IOException e) {
                throw noRoom(folder, e);
            }
        }
    }
}
