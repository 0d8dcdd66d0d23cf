import java.nio.file.Path;
import slowproof.files.cache.CacheFolder;
import slowproof.files.in.TrialReader;
import slowproof.files.log.ReadingProgress;
import slowproof.trial.findings.Evaluation;

/**
 * Evaluates a trial from its raw files again and again in one process, nothing kept, and prints the milliseconds of each
 * turn: what the work itself takes once Java has compiled it.
 *
 * <p>Words: the trial, and the number of turns.
 */
public final class FindingsAgain {
    private FindingsAgain() {}

    /** Evaluates. */
    public static void main(String[] words) {
        Path trial = Path.of(words[0]);
        for (int turn = 0; turn < Integer.parseInt(words[1]); turn++) {
            long began = System.nanoTime();
            Evaluation.of(TrialReader.read(trial, CacheFolder.NONE, false, ReadingProgress.NONE)
                    .trial());
            System.out.println((System.nanoTime() - began) / 1_000_000);
        }
    }
}
