package slowproof.files.in;

import java.nio.file.Path;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import slowproof.files.cache.CacheFolder;
import slowproof.files.log.ReadingProgress;
import slowproof.trial.recording.Recording;

/**
 * Where the files that a trial names lie, and what is done with what is made of them.
 *
 * @param places place of a file by the name that the trial gives it
 * @param cache where results are kept
 * @param traced true when it is wanted how each recording looked, too
 * @param progress who learns how far logs are read
 * @param watcher who gets to see each recording, or null
 */
public record TrialFiles(
        Function<String, Path> places,
        CacheFolder cache,
        boolean traced,
        ReadingProgress progress,
        @Nullable Watcher watcher) {
    /** Gets to see a recording as it was read, on one clock, before it is forgotten. */
    @FunctionalInterface
    public interface Watcher {
        /**
         * Sees a recording.
         *
         * @param name name that its passes bear
         * @param recording the recording
         */
        void see(String name, Recording recording);
    }

    /** Returns files wherever they lie, which nobody watches while they are read. */
    public static TrialFiles of(Function<String, Path> places, CacheFolder cache, boolean traced) {
        return new TrialFiles(places, cache, traced, ReadingProgress.NONE, null);
    }

    /** Returns files that lie in one folder, their names being relative to it. */
    static TrialFiles in(Path folder, CacheFolder cache, boolean traced, ReadingProgress progress) {
        return new TrialFiles(folder::resolve, cache, traced, progress, null);
    }

    Path of(String name) {
        return places.apply(name);
    }
}
