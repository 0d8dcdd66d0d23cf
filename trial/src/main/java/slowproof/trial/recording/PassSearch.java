package slowproof.trial.recording;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.note.Note;

/**
 * The passes of a recording and how they were found.
 *
 * @param passes passes in the order of time
 * @param standstills standstills of the reference in the order of time
 * @param stillBelowMmPerS speed below which the reference counted as resting over the dwell time, in mm/s
 * @param movingAboveMmPerS speed above which it counted as moving, in mm/s
 * @param dwellS shortest standstill looked for, in s
 * @param restNoiseMm standard deviation of the reference at rest, in mm
 * @param drift what the indication gains at rest; null when no standstill tells it
 * @param notes remarks on the whole recording
 */
public record PassSearch(
        List<FoundPass> passes,
        List<Dwell> standstills,
        double stillBelowMmPerS,
        double movingAboveMmPerS,
        double dwellS,
        double restNoiseMm,
        @Nullable StandstillDrift drift,
        List<Note> notes) {
    /** Copies the lists. */
    public PassSearch {
        passes = List.copyOf(passes);
        standstills = List.copyOf(standstills);
        notes = List.copyOf(notes);
    }
}
