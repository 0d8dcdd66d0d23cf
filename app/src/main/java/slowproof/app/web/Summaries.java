package slowproof.app.web;

import java.time.ZoneId;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import slowproof.app.Program;
import slowproof.archive.Archive;
import slowproof.archive.TrialIndex;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.summary.TrialSummary;

/**
 * Brings summaries up to date when somebody asks for them: in the background, and whoever asks waits a moment for it. A
 * bench sheet never waits for a summary.
 */
final class Summaries implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Summaries.class);

    /** A new program has thousands of summaries to make; a page of today a few. */
    private static final long PATIENCE_MS = 60;

    private static final int A_LOT = 50;

    private final Supplier<Archive> archive;
    private final KeptRecordings kept;
    private final ZoneId zone;
    private final String program;
    /** The work that is going on, or null. Guarded by this. */
    private @Nullable CompletableFuture<Void> working;

    private volatile boolean closed;

    Summaries(Supplier<Archive> archive, KeptRecordings kept, ZoneId zone) {
        this.archive = archive;
        this.kept = kept;
        this.zone = zone;
        this.program = Program.build();
    }

    TrialIndex index() {
        return archive.get().index(program);
    }

    /** Returns the version of the program that makes them. */
    String program() {
        return program;
    }

    /** Starts to bring up to date what is not, waits a moment, and returns how many summaries are still to come. */
    int upToDate() {
        int open = index().countOutOfDate();
        if (open == 0) {
            return 0;
        }
        try {
            work().get(PATIENCE_MS, TimeUnit.MILLISECONDS);
        } catch (TimeoutException e) {
            LOG.debug("{} summaries still to come", open);
        } catch (ExecutionException e) {
            throw new IllegalStateException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        return index().countOutOfDate();
    }

    /** Brings everything up to date and returns when it is. */
    void waitForAll() {
        if (index().countOutOfDate() > 0) {
            work().join();
        }
    }

    private synchronized CompletableFuture<Void> work() {
        CompletableFuture<Void> going = working;
        if (going == null || going.isDone()) {
            CompletableFuture<Void> next = new CompletableFuture<>();
            Thread thread = new Thread(
                    () -> {
                        try {
                            run();
                        } finally {
                            next.complete(null);
                        }
                    },
                    "summaries");
            thread.setDaemon(true);
            thread.start();
            working = next;
            return next;
        }
        return going;
    }

    private void run() {
        Set<String> tried = new HashSet<>();
        List<String> next = index().outOfDate(A_LOT);
        // a trial that changes while it is looked at, or cannot be evaluated, is left for the next time
        while (tried.addAll(next) && !closed) {
            next.forEach(this::refresh);
            next = index().outOfDate(A_LOT);
        }
    }

    private void refresh(String id) {
        if (closed) {
            return;
        }
        try {
            refreshed(id);
        } catch (RuntimeException e) {
            // one trial must not keep those behind it from their summaries
            LOG.error("trial {} cannot be summed up", id, e);
        }
    }

    private void refreshed(String id) {
        Sheet sheet = archive.get().sheet(id);
        try {
            index().keep(TrialSummary.of(
                    sheet, kept.evaluated(sheet, archive.get(), "", zone).findings()));
        } catch (RuntimeException e) {
            LOG.error("trial {} cannot be evaluated", id, e);
            index().keep(TrialSummary.of(sheet, null));
        }
    }

    /** Lets the work come to its end, since the archive is closed next. */
    @Override
    public void close() {
        closed = true;
        CompletableFuture<Void> going;
        synchronized (this) {
            going = working;
        }
        if (going != null) {
            going.join();
        }
    }
}
