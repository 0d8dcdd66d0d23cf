package slowproof.app;

import slowproof.files.in.LoadedTrial;
import slowproof.files.out.Envelope;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Findings;

/** Which program this is, and what it writes about itself into results. */
public final class Program {
    private Program() {}

    /** Returns the version, "unknown" when it was not started by its launcher. */
    public static String version() {
        return System.getProperty("slowproof.version", "unknown");
    }

    /** Returns the commit that it was built from, "unknown" when it was not started by its launcher. */
    public static String commit() {
        return System.getProperty("slowproof.commit", "unknown");
    }

    /** Returns version and commit. */
    public static String build() {
        return version() + " (" + commit() + ")";
    }

    /** Returns the envelope of findings; the seed stands in it where an error curve was drawn. */
    public static Envelope envelope(LoadedTrial loaded, Findings findings) {
        boolean drawn = findings.materials().stream().anyMatch(material -> material.curve() != null);
        return new Envelope(
                version(), commit(), loaded.settingsSha256(), drawn ? Long.valueOf(Evaluation.USUAL_SEED) : null);
    }

    /** Returns the envelope of a forecast from a trial with the files of its line. */
    public static Envelope envelope(LoadedTrial all, long seed) {
        return new Envelope(version(), commit(), all.settingsSha256(), seed);
    }
}
