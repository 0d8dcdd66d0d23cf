package slowproof.app;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import slowproof.files.cache.CacheFolder;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.TrialReader;
import slowproof.files.log.ReadingProgress;
import slowproof.wording.Wording;

/** Where a command speaks: its streams, its language, and whether a terminal is at the other end. */
final class Console {
    private static final int USUAL_WIDTH = 100;

    private final PrintStream out;
    private final PrintStream err;
    private final Map<String, String> environment;
    private Locale language;

    Console(PrintStream out, PrintStream err) {
        this.out = out;
        this.err = err;
        this.environment = System.getenv();
        this.language = environment.getOrDefault("LANG", "").startsWith("de") ? Locale.GERMAN : Locale.ENGLISH;
    }

    PrintStream out() {
        return out;
    }

    PrintStream err() {
        return err;
    }

    void speak(Language chosen) {
        language = chosen.locale();
    }

    Wording wording() {
        return Wording.of(language);
    }

    /** The launcher looks whether standard output is a terminal: Java has no way that holds for all its versions. */
    boolean colour() {
        return System.getProperty("slowproof.columns") != null && environment.get("NO_COLOR") == null;
    }

    /** Returns true when a person can be asked: standard input is a terminal. */
    static boolean asks() {
        return Boolean.getBoolean("slowproof.typed");
    }

    int width() {
        String columns = System.getProperty("slowproof.columns", "");
        try {
            return Math.max(60, Integer.parseInt(columns));
        } catch (NumberFormatException e) {
            return USUAL_WIDTH;
        }
    }

    /**
     * Reads a trial with the user's cache, and says how far that is when it takes its time and somebody watches.
     *
     * @param traced true when how its recordings looked is wanted, too
     * @throws slowproof.trial.input.BadInputException with all that is wrong with it
     */
    LoadedTrial trial(Path file, boolean traced) {
        CacheFolder cache = ResultCache.ofUser();
        if (!Boolean.getBoolean("slowproof.watched")) {
            return TrialReader.read(file, cache, traced, ReadingProgress.NONE);
        }
        try (ProgressLine line = new ProgressLine(err, wording(), System::nanoTime)) {
            return TrialReader.read(file, cache, traced, line);
        }
    }
}
