package slowproof.metrology.sampling;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.apache.commons.rng.UniformRandomProvider;

/**
 * Runs numbered blocks of random work on several threads and returns their results in the order of the blocks.
 */
public final class ParallelBlocks {

    private ParallelBlocks() {}

    /**
     * Runs the next blocks of a sequence of streams. A failing block stops the blocks that have not begun; the
     * failure of the earliest failing block is thrown. Interrupting the calling thread stops the work likewise.
     *
     * @param streams where the generators come from; advanced by {@code blocks}
     * @param blocks how many blocks to run, at least 0
     * @param threads how many may run at once, at least 1; with 1 all the work is done by the calling thread
     * @param task the work of a block; called from several threads at once
     * @param <T> result of a block
     * @return the results, in the order of the blocks
     * @throws IllegalArgumentException if there is no thread
     * @throws CancellationException if the calling thread is interrupted; it stays interrupted
     */
    public static <T> List<T> map(BlockStreams streams, int blocks, int threads, BlockTask<T> task) {
        if (threads < 1) {
            throw new IllegalArgumentException("at least one thread is needed: " + threads);
        }
        int workers = Math.min(threads, blocks);
        return workers <= 1 ? inTurn(streams, blocks, task) : atOnce(streams, blocks, workers, task);
    }

    private static <T> List<T> inTurn(BlockStreams streams, int blocks, BlockTask<T> task) {
        List<T> results = new ArrayList<>(blocks);
        for (int b = 0; b < blocks; b++) {
            if (Thread.currentThread().isInterrupted()) {
                throw new CancellationException("interrupted before block " + b);
            }
            results.add(task.run(streams.next()));
        }
        return results;
    }

    private static <T> List<T> atOnce(BlockStreams streams, int blocks, int workers, BlockTask<T> task) {
        ExecutorService pool = Executors.newFixedThreadPool(workers, ParallelBlocks::daemon);
        try {
            List<Future<T>> pending = new ArrayList<>(blocks);
            for (int b = 0; b < blocks; b++) {
                UniformRandomProvider random = streams.next();
                pending.add(pool.submit(() -> task.run(random)));
            }
            List<T> results = new ArrayList<>(blocks);
            for (Future<T> future : pending) {
                results.add(future.get());
            }
            return results;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw cancelled(e);
        } catch (ExecutionException e) {
            throw unwrapped(e);
        } finally {
            pool.shutdownNow();
        }
    }

    private static CancellationException cancelled(InterruptedException e) {
        CancellationException cancelled = new CancellationException("interrupted while blocks were running");
        cancelled.initCause(e);
        return cancelled;
    }

    /** The failure as the block threw it, so that one thread and many fail alike. */
    private static RuntimeException unwrapped(ExecutionException e) {
        Throwable cause = e.getCause();
        if (cause instanceof Error error) {
            throw error;
        }
        return cause instanceof RuntimeException failure ? failure : new IllegalStateException(cause);
    }

    private static Thread daemon(Runnable work) {
        Thread thread = new Thread(work, "sampling");
        thread.setDaemon(true);
        return thread;
    }
}
