package slowproof.app.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import slowproof.files.cache.CacheFolder;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.TrialFiles;
import slowproof.files.in.TrialReader;
import slowproof.files.log.ReadingProgress;
import slowproof.files.trace.TraceWriter;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.recording.Recording;

/** Reads logs that were sent and cuts them into passes, one sending after the other, while the person waits. */
final class UploadJobs implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(UploadJobs.class);
    private static final int MOST_KEPT = 20;

    private final CacheFolder cache;
    private final ExecutorService worker = Executors.newSingleThreadExecutor(work -> {
        Thread thread = new Thread(work, "recordings");
        thread.setDaemon(true);
        return thread;
    });
    private final Map<String, Job> jobs = new LinkedHashMap<>();

    UploadJobs(CacheFolder cache) {
        this.cache = cache;
    }

    /**
     * How far a sending is.
     *
     * @param trial the trial file it is read by
     * @param since when it was begun
     * @param loaded what came of it, or null
     * @param problems what is wrong with the logs
     * @param sorry key of a sentence about what went wrong otherwise, empty when nothing did
     */
    record Job(String trial, Instant since, @Nullable LoadedTrial loaded, List<InputProblem> problems, String sorry) {
        boolean running() {
            return loaded == null && problems.isEmpty() && sorry.isEmpty();
        }

        Duration takes() {
            return Duration.between(since, Instant.now());
        }
    }

    /** Returns where results are kept. */
    CacheFolder cache() {
        return cache;
    }

    /** Returns the file that keeps a recording for looking at, counted from 0 in the order of the trial file. */
    static Path traceFile(Path folder, int recording) {
        return folder.resolve(recording + ".trace");
    }

    /** Returns the job of a sending when it is about this very trial file. */
    synchronized Optional<Job> job(String id, String trial) {
        Job job = jobs.get(id);
        return job != null && job.trial().equals(trial) ? Optional.of(job) : Optional.empty();
    }

    /** Begins to read, unless that was begun or done already. */
    synchronized Job begin(String id, String trial, List<UploadStore.Log> logs, Path folder) {
        Optional<Job> before = job(id, trial);
        if (before.isPresent()) {
            return before.get();
        }
        Job job = new Job(trial, Instant.now(), null, List.of(), "");
        jobs.remove(id);
        jobs.put(id, job);
        if (jobs.size() > MOST_KEPT) {
            jobs.remove(jobs.keySet().iterator().next());
        }
        worker.execute(() -> {
            // while it waited for its turn the reading may have been changed, or the logs thrown away
            if (job(id, trial).isPresent()) {
                finish(id, trial, work(job, logs, folder));
            }
        });
        return job;
    }

    synchronized void forget(String id) {
        jobs.remove(id);
    }

    private synchronized void finish(String id, String trial, Job done) {
        // somebody may have changed the reading meanwhile, or thrown the logs away
        if (job(id, trial).isPresent()) {
            jobs.put(id, done);
        }
    }

    private Job work(Job job, List<UploadStore.Log> logs, Path folder) {
        Map<String, Path> places = new HashMap<>();
        logs.forEach(log -> places.put(log.name(), log.path()));
        List<String> seen = new ArrayList<>();
        TrialFiles files = new TrialFiles(
                name -> places.getOrDefault(name, folder.resolve("none")),
                cache,
                true,
                ReadingProgress.NONE,
                (name, recording) -> keep(recording, traceFile(folder, seen.size()), seen, name));
        try {
            LoadedTrial loaded = TrialReader.read(job.trial(), "trial.yaml", files);
            return new Job(job.trial(), job.since(), loaded, List.of(), "");
        } catch (BadInputException e) {
            return new Job(job.trial(), job.since(), null, e.problems(), "");
        } catch (UncheckedIOException e) {
            LOG.warn("recordings cannot be kept for looking at", e);
            return new Job(job.trial(), job.since(), null, List.of(), "upload.refused.disk");
        } catch (OutOfMemoryError e) {
            return new Job(job.trial(), job.since(), null, List.of(), "upload.memory");
        } catch (RuntimeException e) {
            LOG.error("recordings cannot be read", e);
            return new Job(job.trial(), job.since(), null, List.of(), "sorry.our_fault");
        }
    }

    private static void keep(Recording recording, Path file, List<String> seen, String name) {
        try {
            TraceWriter.write(recording, file);
            seen.add(name);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public void close() {
        worker.shutdownNow();
    }
}
