package slowproof.files.log;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.Semaphore;
import org.jspecify.annotations.Nullable;
import slowproof.trial.recording.Column;

/**
 * The quick way through large logs that are written plainly: one byte per sign, no quotes, no comments, no empty
 * cells, every row complete. Blocks of whole lines are read one after the other and parsed side by side, straight
 * from bytes to numbers. At the first thing out of the ordinary all is left to the thorough way, which knows what to
 * say about it; so this one never has to.
 */
final class PlainLog {
    private static final int BLOCK = 1 << 22;

    /** Below this size the thorough way is as quick, and threads are not worth their start. */
    private static final long WORTHWHILE = 8L << 20;

    private final Path path;
    private final Layout layout;
    private final List<Target> targets;
    private final int markLength;
    private final int blockSize;

    PlainLog(Path path, Layout layout, List<Target> targets, int markLength, int blockSize) {
        this.path = path;
        this.layout = layout;
        this.targets = targets;
        this.markLength = markLength;
        this.blockSize = blockSize;
    }

    /**
     * What was read.
     *
     * @param columns numbers in the order of the targets
     * @param sha256 SHA-256 of the file's bytes in hexadecimal digits
     */
    record Content(List<Column> columns, String sha256) {}

    /** Returns the content, or null when the log is small or not plain. */
    static @Nullable Content read(Path path, RawLog raw, Layout layout, List<Target> targets) throws IOException {
        Charset charset = raw.charset();
        boolean bytes = charset.equals(StandardCharsets.UTF_8)
                || charset.equals(StandardCharsets.US_ASCII)
                || charset.equals(StandardCharsets.ISO_8859_1)
                || charset.name().equals("windows-1252");
        if (raw.packed()
                || !bytes
                || layout.separator() > 127
                || targets.stream().anyMatch(Target::stamps)
                || Files.size(path) < WORTHWHILE) {
            return null;
        }
        return new PlainLog(path, layout, targets, raw.markLength(), BLOCK).read();
    }

    /** Returns the content, or null when anything in it is out of the ordinary. */
    @Nullable
    Content read() throws IOException {
        MessageDigest digest = RawLog.sha256();
        int workers = Runtime.getRuntime().availableProcessors();
        ExecutorService pool = Executors.newFixedThreadPool(workers, task -> {
            Thread thread = new Thread(task, "log reader");
            thread.setDaemon(true);
            return thread;
        });
        // no more blocks in memory than are being worked on
        Semaphore room = new Semaphore(2 * workers);
        List<Future<@Nullable PlainBlock>> blocks = new ArrayList<>();
        try (InputStream in = Files.newInputStream(path)) {
            byte[] rest = new byte[0];
            boolean first = true;
            while (true) {
                room.acquire();
                byte[] block = new byte[rest.length + blockSize];
                System.arraycopy(rest, 0, block, 0, rest.length);
                int read = in.readNBytes(block, rest.length, blockSize);
                digest.update(block, rest.length, read);
                boolean last = read < blockSize;
                int length = rest.length + read;
                int end = last ? length : lastLineEnd(block, length);
                int start = first && end > 0 ? afterHeader(block, end) : 0;
                if (end < 0 || start < 0) {
                    // no whole line, or not yet the data: the next block is put behind
                    if (last) {
                        return null;
                    }
                    rest = Arrays.copyOf(block, length);
                    room.release();
                    continue;
                }
                first = false;
                rest = Arrays.copyOfRange(block, end, length);
                blocks.add(pool.submit(() -> {
                    try {
                        return PlainBlock.parse(block, start, end, layout, targets);
                    } finally {
                        room.release();
                    }
                }));
                if (last) {
                    break;
                }
                Future<@Nullable PlainBlock> oldest = blocks.get(blocks.size() / 2);
                if (oldest.isDone() && oldest.get() == null) {
                    return null;
                }
            }
            List<Column> columns = joined(blocks);
            return columns == null ? null : new Content(columns, HexFormat.of().formatHex(digest.digest()));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("reading was interrupted", e);
        } catch (ExecutionException e) {
            throw new IllegalStateException("a block could not be parsed", e);
        } finally {
            pool.shutdownNow();
        }
    }

    private static int lastLineEnd(byte[] block, int length) {
        for (int i = length - 1; i >= 0; i--) {
            if (block[i] == '\n') {
                return i + 1;
            }
        }
        return -1;
    }

    private int afterHeader(byte[] block, int end) {
        int at = markLength;
        for (long line = 1; line < layout.dataLine(); line++) {
            while (at < end && block[at] != '\n') {
                at++;
            }
            if (at == end) {
                return -1;
            }
            at++;
        }
        return at;
    }

    private @Nullable List<Column> joined(List<Future<@Nullable PlainBlock>> futures)
            throws InterruptedException, ExecutionException {
        List<PlainBlock> blocks = new ArrayList<>();
        int rows = 0;
        for (Future<@Nullable PlainBlock> future : futures) {
            PlainBlock block = future.get();
            if (block == null) {
                return null;
            }
            blocks.add(block);
            rows = Math.addExact(rows, block.rows());
        }
        List<Column> columns = new ArrayList<>();
        for (int k = 0; k < targets.size(); k++) {
            Column.Builder column = new Column.Builder(rows);
            for (PlainBlock block : blocks) {
                column.add(block.column(k), block.rows());
            }
            columns.add(column.build());
        }
        return columns;
    }
}
