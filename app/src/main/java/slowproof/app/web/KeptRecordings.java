package slowproof.app.web;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.archive.Archive;
import slowproof.archive.parcel.ParcelWriter;
import slowproof.archive.sheet.Recordings;
import slowproof.archive.sheet.Sheet;
import slowproof.files.cache.CacheFolder;
import slowproof.files.in.LoadedTrial;
import slowproof.files.in.TrialFiles;
import slowproof.files.in.TrialReader;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;

/**
 * Reads the recordings of kept trials. A kept log never changes, and neither does how it is read, so what was read is
 * remembered for the trials that were looked at last.
 */
final class KeptRecordings {
    private static final int MOST_REMEMBERED = 60;
    private static final Path NOWHERE = Path.of("kept-log-is-missing");

    private final CacheFolder cache;
    private final Map<Recordings, Read> remembered = new LinkedHashMap<>(16, 0.75f, true);

    KeptRecordings(CacheFolder cache) {
        this.cache = cache;
    }

    /**
     * What came of the recordings of a trial.
     *
     * @param loaded the trial as read, or null when a log is missing or cannot be read any more
     * @param problems why it cannot be read
     */
    record Read(@Nullable LoadedTrial loaded, List<InputProblem> problems) {
        /** A trial without recordings. */
        static final Read NOTHING = new Read(null, List.of());
    }

    /** Evaluates a trial, its recordings included; surfaces that nobody named get the given name. */
    Evaluated evaluated(Sheet sheet, Archive archive, String unnamed, ZoneId zone) {
        return Evaluated.of(sheet, read(sheet.recordings(), archive), unnamed, zone);
    }

    private Read read(Recordings recordings, Archive archive) {
        if (recordings.isEmpty()) {
            return Read.NOTHING;
        }
        synchronized (remembered) {
            Read before = remembered.get(recordings);
            if (before != null) {
                return before;
            }
        }
        Read read = readAnew(recordings, archive);
        if (read.loaded() != null) {
            remember(recordings, read);
        }
        return read;
    }

    private void remember(Recordings recordings, Read read) {
        synchronized (remembered) {
            remembered.put(recordings, read);
            if (remembered.size() > MOST_REMEMBERED) {
                remembered.remove(new ArrayList<>(remembered.keySet()).get(0));
            }
        }
    }

    private Read readAnew(Recordings recordings, Archive archive) {
        TrialFiles files = TrialFiles.of(name -> place(recordings, name, archive), cache, true);
        try {
            return new Read(TrialReader.read(recordings.trial(), "trial.yaml", files), List.of());
        } catch (BadInputException e) {
            return new Read(null, e.problems());
        }
    }

    private static Path place(Recordings recordings, String name, Archive archive) {
        String sha256 = recordings.files().get(name);
        return sha256 == null ? NOWHERE : archive.file(sha256).orElse(NOWHERE);
    }

    /** Returns where the raw files of a trial lie, by the paths under which a trial taken along names them. */
    static Map<String, Path> rawFiles(Recordings recordings, Archive archive) {
        Map<String, Path> places = new HashMap<>();
        recordings
                .files()
                .forEach((name, sha256) ->
                        places.put(ParcelWriter.path(sha256, name), place(recordings, name, archive)));
        return places;
    }
}
