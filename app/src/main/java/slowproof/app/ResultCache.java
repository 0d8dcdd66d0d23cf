package slowproof.app;

import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.CodeSource;
import slowproof.files.cache.CacheFolder;
import slowproof.files.cache.KeptDraws;
import slowproof.files.in.LoadedTrial;
import slowproof.trial.curve.DrawStore;
import slowproof.trial.curve.Drawing;
import slowproof.trial.findings.Evaluation;

/** The user's cache for what is made of large recordings. What another build of the program made is not found in it. */
public final class ResultCache {
    private ResultCache() {}

    /** Returns the cache. */
    public static CacheFolder ofUser() {
        return CacheFolder.ofUser(System.getenv(), Program.version() + " " + Program.commit() + " " + built());
    }

    /** Returns how the error curves of a trial are drawn: draws for long recordings are kept. */
    static Drawing drawing(LoadedTrial loaded) {
        return new Drawing(Evaluation.USUAL_SEED, loaded.hasLongRecording() ? new KeptDraws(ofUser()) : DrawStore.NONE);
    }

    /** A commit does not tell builds of changed sources apart; the time of the build does. */
    private static String built() {
        if (!Program.commit().equals("unknown") && !Program.commit().endsWith("-modified")) {
            return "";
        }
        try {
            CodeSource source = CacheFolder.class.getProtectionDomain().getCodeSource();
            return source == null
                    ? ""
                    : Files.getLastModifiedTime(Path.of(source.getLocation().toURI()))
                            .toString();
        } catch (IOException | URISyntaxException e) {
            return "";
        }
    }
}
