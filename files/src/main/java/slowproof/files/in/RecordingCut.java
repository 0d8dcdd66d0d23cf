package slowproof.files.in;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.PassSearch;
import slowproof.trial.recording.Recording;
import slowproof.trial.recording.SpeedTrace;
import slowproof.trial.recording.StandstillDrift;

/**
 * How a recording was cut into passes, and what it looked like.
 *
 * @param name name that its passes bear
 * @param rows rows of the recording, of both logs where there are two
 * @param fromS time of the first row in s
 * @param toS time of the last row in s
 * @param intervalS usual time between rows in s
 * @param parts parts that nothing crosses, at least 1
 * @param breaks the first places where rows do not follow on one another
 * @param standstills standstills of the reference
 * @param passes passes between them
 * @param dwellS shortest standstill looked for in s
 * @param stillBelowMmPerS speed below which the reference counted as resting, in mm/s
 * @param movingAboveMmPerS speed above which it counted as moving, in mm/s
 * @param thresholdStated true when the trial states the speed, false when it was derived from the noise at rest
 * @param restNoiseMm standard deviation of the reference at rest in mm
 * @param drift what the indication gains at rest; null when no standstill tells it
 * @param trace speeds over time, small enough for a picture; null when nobody wanted it
 */
public record RecordingCut(
        String name,
        long rows,
        double fromS,
        double toS,
        double intervalS,
        int parts,
        List<Break> breaks,
        int standstills,
        int passes,
        double dwellS,
        double stillBelowMmPerS,
        double movingAboveMmPerS,
        boolean thresholdStated,
        double restNoiseMm,
        @Nullable StandstillDrift drift,
        @Nullable SpeedTrace trace) {
    /** Pieces of the trace: about as many as a wide picture has points. */
    public static final int PIECES = 1200;

    private static final int BREAKS_KEPT = 100;

    /** Copies the list. */
    public RecordingCut {
        breaks = List.copyOf(breaks);
    }

    static RecordingCut of(
            String name, Recording log, PassSearch search, boolean thresholdStated, @Nullable SpeedTrace trace) {
        return new RecordingCut(
                name,
                log.size(),
                log.timeS().at(0),
                log.timeS().at(log.size() - 1),
                log.intervalS(),
                log.segments().size(),
                log.breaks().subList(0, Math.min(log.breaks().size(), BREAKS_KEPT)),
                search.standstills().size(),
                search.passes().size(),
                search.dwellS(),
                search.stillBelowMmPerS(),
                search.movingAboveMmPerS(),
                thresholdStated,
                search.restNoiseMm(),
                search.drift(),
                trace);
    }
}
