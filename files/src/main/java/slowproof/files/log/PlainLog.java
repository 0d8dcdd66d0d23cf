package slowproof.files.log;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.LongConsumer;
import org.jspecify.annotations.Nullable;
import slowproof.trial.recording.Column;
import slowproof.trial.recording.ColumnSpace;

/**
 * The quick way through large logs that are written plainly: one byte per sign, no quotes, no comments, no empty
 * cells, every row complete. Blocks of whole lines are read once and parsed side by side, straight from bytes to numbers;
 * in their order they enter the fingerprint and are put behind one another in the columns, so that no number is ever held twice. At the first thing out of the ordinary all is left to the thorough way, which knows what to
 * say about it; so this one never has to.
 */
final class PlainLog {
    private static final int BLOCK = 1 << 20;

    private static final int CHUNK = 1 << 13;

    /** Below this size the thorough way is as quick, and threads are not worth their start. */
    private static final long WORTHWHILE = 8L << 20;

    /** A line longer than this is out of the ordinary. */
    private static final int LONGEST_LINE = 1 << 16;

    /** As many rows as an array can hold. */
    private static final long MOST_ROWS = Integer.MAX_VALUE - 16L;

    private final Path path;
    private final Layout layout;
    private final List<Target> targets;
    private final int markLength;
    private final int blockSize;
    private final ColumnSpace space;
    private final LongConsumer told;

    /** Prepares to read; {@code told} learns how many bytes are read, one thread after the other. */
    PlainLog(
            Path path,
            Layout layout,
            List<Target> targets,
            int markLength,
            int blockSize,
            ColumnSpace space,
            LongConsumer told) {
        this.path = path;
        this.layout = layout;
        this.targets = targets;
        this.markLength = markLength;
        this.blockSize = blockSize;
        this.space = space;
        this.told = told;
    }

    /**
     * What was read.
     *
     * @param columns numbers in the order of the targets
     * @param sha256 SHA-256 of the file's bytes in hexadecimal digits
     * @param cutShort true when the last line has no line end and its last cell may be cut short; it was left out
     */
    record Content(List<Column> columns, String sha256, boolean cutShort) {}

    /** Returns the content, or null when the log is small or not plain. */
    static @Nullable Content read(Path path, RawLog raw, Layout layout, List<Target> targets, ColumnSpace space)
            throws IOException {
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
        return new PlainLog(path, layout, targets, raw.markLength(), BLOCK, space, raw.told()).read();
    }

    /** Returns the content, or null when anything in it is out of the ordinary. */
    @Nullable
    Content read() throws IOException {
        int workers = Runtime.getRuntime().availableProcessors();
        ExecutorService pool = Executors.newFixedThreadPool(workers, task -> {
            Thread thread = new Thread(task, "log reader");
            thread.setDaemon(true);
            return thread;
        });
        try (FileChannel channel = FileChannel.open(path)) {
            long size = channel.size();
            long from = dataStart(size);
            if (from < 0) {
                return null;
            }
            long end = endOfWholeRows(channel, from, size);
            Shared shared = new Shared(channel, from, end);
            List<Future<?>> all = new ArrayList<>();
            for (int i = 0; i < workers; i++) {
                all.add(pool.submit(() -> {
                    work(shared);
                    return null;
                }));
            }
            shared.begin();
            for (Future<?> worker : all) {
                worker.get();
            }
            if (shared.odd()) {
                return null;
            }
            shared.digest(end, size);
            return new Content(shared.columns(), HexFormat.of().formatHex(shared.digest.digest()), end < size);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("reading was interrupted", e);
        } catch (ExecutionException e) {
            if (e.getCause() instanceof IOException cause) {
                throw cause;
            }
            if (e.getCause() instanceof RuntimeException cause) {
                throw cause;
            }
            throw new IllegalStateException("a block could not be parsed", e);
        } finally {
            pool.shutdownNow();
        }
    }

    /** Returns the size, or where the last line begins when it has no line end and its last cell may be cut short. */
    private long endOfWholeRows(FileChannel channel, long from, long size) throws IOException {
        byte[] tail = new byte[(int) Math.min(LONGEST_LINE, size - from)];
        if (!fill(channel, size - tail.length, tail, tail.length)
                || tail[tail.length - 1] == '\n'
                || targets.stream().noneMatch(target -> target.index() == layout.cells() - 1)) {
            return size;
        }
        char[] text = new String(tail, StandardCharsets.ISO_8859_1).toCharArray();
        LastCell cells = new LastCell(layout.decimal());
        int line = 0;
        int cell = 0;
        int separators = 0;
        for (int i = 0; i < text.length; i++) {
            if (text[i] == layout.separator()) {
                cell = i + 1;
                separators++;
            } else if (text[i] == '\n') {
                // the first line of the tail may have lost its beginning, but not its last cell
                if (cell > 0) {
                    cells.add(text, cell, (text[i - 1] == '\r' ? i - 1 : i) - cell);
                }
                line = i + 1;
                cell = line;
                separators = 0;
            }
        }
        // a row that lacks cells is for the thorough way
        boolean whole = separators != layout.cells() - 1 || cells.whole(text, cell, text.length - cell);
        return whole ? size : size - text.length + line;
    }

    /** Returns where the data begin, or -1 when there are none. */
    private long dataStart(long size) throws IOException {
        long at = markLength;
        try (InputStream in = new BufferedInputStream(Files.newInputStream(path))) {
            in.skipNBytes(markLength);
            for (long line = 1; line < layout.dataLine(); ) {
                int c = in.read();
                if (c < 0) {
                    return -1;
                }
                at++;
                line += c == '\n' ? 1 : 0;
            }
        }
        return at < size ? at : -1;
    }

    /** What the workers share: blocks are handed out by number, and what must keep their order is done in turn. */
    private final class Shared {
        private final FileChannel channel;
        private final long from;
        private final long size;
        private final long blocks;
        private final AtomicLong next = new AtomicLong();
        private final MessageDigest digest = RawLog.sha256();
        private final Turns digesting = new Turns();
        private final List<Column.Builder> builders = new ArrayList<>();
        private final Turns placing = new Turns();

        Shared(FileChannel channel, long from, long size) {
            this.channel = channel;
            this.from = from;
            this.size = size;
            this.blocks = (size - from + blockSize - 1) / blockSize;
        }

        boolean odd() {
            return placing.over();
        }

        void refuse() {
            digesting.end();
            placing.end();
        }

        /** Does what must come before the first block, while that is parsed. */
        void begin() throws IOException {
            digest(0, from);
            digesting.next();
            byte[] text = new byte[(int) Math.min(LONGEST_LINE, size - from)];
            if (!fill(channel, from, text, text.length)) {
                throw new IOException("the file became shorter while it was read");
            }
            int rows = 1;
            for (byte c : text) {
                rows += c == '\n' ? 1 : 0;
            }
            // the later rows are about as long as the first; counters and times gain digits, so they are not shorter
            long guess = Math.min((size - from) / text.length * rows + 2L * rows, MOST_ROWS);
            // fresh memory takes its time, and nothing can be put anywhere before
            targets.parallelStream()
                    .map(target -> new Column.Builder((int) guess, space))
                    .forEachOrdered(builders::add);
            placing.next();
        }

        /** Takes bytes around the blocks into the fingerprint. */
        void digest(long begin, long end) throws IOException {
            byte[] bytes = new byte[(int) (end - begin)];
            if (!fill(channel, begin, bytes, bytes.length)) {
                throw new IOException("the file became shorter while it was read");
            }
            digest.update(bytes);
        }

        /** Takes a block into the fingerprint when it is its turn. */
        void digest(long number, byte[] text, int begin, int length) throws InterruptedException {
            if (digesting.await(number + 1)) {
                // a method that is called often is compiled soon
                for (int at = 0; at < length; at += CHUNK) {
                    digest.update(text, begin + at, Math.min(CHUNK, length - at));
                }
                told.accept(from + number * blockSize + length);
                digesting.next();
            }
        }

        /** Puts a block into the columns when it is its turn. */
        void place(long number, PlainBlock block) throws InterruptedException {
            if (!placing.await(number + 1)) {
                return;
            }
            if ((long) builders.get(0).size() + block.rows() > MOST_ROWS) {
                refuse();
                return;
            }
            for (int k = 0; k < targets.size(); k++) {
                builders.get(k).add(block.column(k), block.rows());
            }
            placing.next();
        }

        List<Column> columns() {
            return builders.stream().map(Column.Builder::build).toList();
        }
    }

    /** Parses blocks until none is left. A block holds the lines that begin in it. */
    private void work(Shared shared) throws IOException, InterruptedException {
        byte[] text = new byte[blockSize + LONGEST_LINE + PlainBlock.SLACK];
        PlainBlock block = new PlainBlock(layout, targets, blockSize / 24);
        boolean done = false;
        try {
            while (!shared.odd()) {
                long number = shared.next.getAndIncrement();
                if (number >= shared.blocks) {
                    done = true;
                    return;
                }
                long offset = shared.from + number * blockSize;
                // the byte before tells whether a line begins with the block; the last line may end behind it
                long readFrom = number == 0 ? offset : offset - 1;
                int wanted = (int) Math.min(text.length - PlainBlock.SLACK, shared.size - readFrom);
                if (!fill(shared.channel, readFrom, text, wanted)) {
                    return;
                }
                int begin = (int) (offset - readFrom);
                shared.digest(number, text, begin, (int) Math.min(blockSize, shared.size - offset));
                boolean last = readFrom + wanted == shared.size;
                int start = number == 0 ? 0 : afterLineFeed(text, 0, wanted);
                int blockEnd = (int) (Math.min(offset + blockSize, shared.size) - readFrom);
                int end = blockEnd == wanted ? wanted : afterLineFeed(text, blockEnd - 1, wanted);
                if (end < 0 && last) {
                    end = wanted;
                }
                if (end == wanted && last && text[wanted - 1] != '\n') {
                    // a last line may lack its end
                    text[wanted] = '\n';
                    end++;
                }
                if (end < 0 || (start < 0 && !last)) {
                    return;
                }
                if (!block.parse(text, start < 0 ? end : Math.min(start, end), end)) {
                    return;
                }
                shared.place(number, block);
            }
            done = true;
        } finally {
            // whatever was odd or went wrong, nobody must wait for this one's turn
            if (!done) {
                shared.refuse();
            }
        }
    }

    private static boolean fill(FileChannel channel, long from, byte[] text, int wanted) throws IOException {
        ByteBuffer target = ByteBuffer.wrap(text, 0, wanted);
        while (target.hasRemaining()) {
            if (channel.read(target, from + target.position()) < 0) {
                return false;
            }
        }
        return true;
    }

    private static int afterLineFeed(byte[] text, int from, int to) {
        for (int i = from; i < to; i++) {
            if (text[i] == '\n') {
                return i + 1;
            }
        }
        return -1;
    }
}
