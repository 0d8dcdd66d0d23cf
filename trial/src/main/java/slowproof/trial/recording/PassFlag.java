package slowproof.trial.recording;

import java.util.Locale;

/** What is doubtful about a pass found in a recording. A flag never drops a pass. */
public enum PassFlag {
    /** The reference ran beyond its end position and came back. */
    OVERSHOOT,
    /** A dwell next to the pass was too short to leave time for settling. */
    SHORT_DWELL,
    /** The reference stopped on its way, for less than a dwell. */
    STOP_INSIDE_PASS,
    /** The reference went to and fro: the path is much longer than the travel. */
    DIRECTION_UNCLEAR,
    /** Channels changed at once inside the pass, so counts are missing. */
    ILLEGAL_TRANSITIONS,
    /** Rows are missing inside the pass. */
    GAP_IN_PASS,
    /** The indication went on while the reference was at rest next to the pass. */
    STANDSTILL_DRIFT,
    /** No stretch of even speed: a triangular or hand-driven move; the plateau speed is where most travel was. */
    NO_PLATEAU;

    /** Returns the flag as written in files and message bundles, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
