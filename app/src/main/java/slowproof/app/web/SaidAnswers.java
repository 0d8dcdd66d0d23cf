package slowproof.app.web;

import java.io.IOException;
import java.util.Locale;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import slowproof.app.Program;
import slowproof.archive.Archive;
import slowproof.trial.input.BadInputException;
import slowproof.wording.Wording;

/**
 * Keeps what the page of a trial has said, passes and findings, with the program that said it: when a later version says
 * something else, the archive knows what was read before. In the background, so that no page waits for it.
 */
final class SaidAnswers implements AutoCloseable {
    /** Kind of the kept result: a document of schema findings/1 in English. */
    static final String KIND = "findings";

    private static final Logger LOG = LoggerFactory.getLogger(SaidAnswers.class);
    private static final long PATIENCE_S = 10;

    private final Supplier<Archive> archive;
    private final ExecutorService worker = Executors.newSingleThreadExecutor(work -> {
        Thread thread = new Thread(work, "said answers");
        thread.setDaemon(true);
        return thread;
    });

    SaidAnswers(Supplier<Archive> archive) {
        this.archive = archive;
    }

    /** Keeps findings that a page shows, once a program and state of the trial. */
    void said(Evaluated evaluated) {
        if (evaluated.hasFindings()) {
            worker.execute(() -> keep(evaluated));
        }
    }

    private void keep(Evaluated evaluated) {
        String trial = evaluated.sheet().id();
        long seq = evaluated.sheet().lastSeq();
        String program = Program.build();
        try {
            if (archive.get().hasResult(trial, seq, KIND, program)) {
                return;
            }
            Wording english = Wording.of(Locale.ENGLISH).withPages();
            byte[] findings = Downloads.written(
                    Downloads.trialFiles(evaluated, evaluated.sheet().title()),
                    KeptRecordings.rawFiles(evaluated.sheet().recordings(), archive.get()),
                    english,
                    Downloads::json);
            archive.get().keepResult(trial, seq, KIND, program, findings);
        } catch (BadInputException e) {
            LOG.warn("the answer of {} is not kept: its trial file is questioned: {}", trial, e.getMessage());
        } catch (IOException | RuntimeException e) {
            LOG.error("the answer of {} is not kept", trial, e);
        }
    }

    /** Waits a moment for what is still to be kept. */
    @Override
    public void close() {
        worker.shutdown();
        try {
            if (!worker.awaitTermination(PATIENCE_S, TimeUnit.SECONDS)) {
                worker.shutdownNow();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
