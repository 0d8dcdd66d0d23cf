package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import slowproof.trial.note.Note;

/**
 * What a sensor and its reference showed over time, on one clock: one row per sample, columns of equal length.
 * A recording of two clocks is made of one that has an indication and one that has a reference.
 *
 * <p>Within a segment times increase strictly. Breaks say where rows are missing or do not belong together.
 * Nothing is interpolated, smoothed or filled in.
 */
public final class Recording {
    private final String source;
    private final Column timeS;
    private final @Nullable Column indicationMm;
    private final @Nullable Column referenceMm;
    private final @Nullable Column dropout;
    private final double countMm;
    private final double intervalS;
    private final List<Break> breaks;
    private final List<Segment> segments;
    private final List<IllegalTransition> illegalTransitions;
    private final List<Note> notes;

    /** Made by {@link RecordingAssembler}, and inside the package by what joins recordings. */
    Recording(
            String source,
            Column timeS,
            @Nullable Column indicationMm,
            @Nullable Column referenceMm,
            @Nullable Column dropout,
            double countMm,
            double intervalS,
            List<Break> breaks,
            List<IllegalTransition> illegalTransitions,
            List<Note> notes) {
        this.source = Objects.requireNonNull(source, "source");
        this.timeS = timeS;
        this.indicationMm = indicationMm;
        this.referenceMm = referenceMm;
        this.dropout = dropout;
        this.countMm = countMm;
        this.intervalS = intervalS;
        this.breaks = List.copyOf(breaks);
        this.segments = segments(timeS.size(), breaks);
        this.illegalTransitions = List.copyOf(illegalTransitions);
        this.notes = List.copyOf(notes);
    }

    private static List<Segment> segments(int rows, List<Break> breaks) {
        List<Segment> parts = new ArrayList<>();
        int from = 0;
        for (Break place : breaks) {
            if (place.splits()) {
                parts.add(new Segment(from, place.row()));
                from = place.row();
            }
        }
        if (from < rows) {
            parts.add(new Segment(from, rows));
        }
        return List.copyOf(parts);
    }

    /** Returns the name of the source, as the user gave it. */
    public String source() {
        return source;
    }

    /** Returns the number of rows. */
    public int size() {
        return timeS.size();
    }

    /** Returns the time of each row in s. */
    public Column timeS() {
        return timeS;
    }

    /** Returns true when the recording holds what the sensor showed. */
    public boolean hasIndication() {
        return indicationMm != null;
    }

    /** Returns true when the recording holds a reference. */
    public boolean hasReference() {
        return referenceMm != null;
    }

    /**
     * Returns the indication of each row in mm, cumulative, signed, from an arbitrary zero.
     *
     * @throws IllegalStateException if the recording has none
     */
    public Column indicationMm() {
        if (indicationMm == null) {
            throw new IllegalStateException(source + " has no indication");
        }
        return indicationMm;
    }

    /**
     * Returns the position of the reference in each row in mm, signed, from an arbitrary zero.
     *
     * @throws IllegalStateException if the recording has none
     */
    public Column referenceMm() {
        if (referenceMm == null) {
            throw new IllegalStateException(source + " has no reference");
        }
        return referenceMm;
    }

    /** Returns the positions in mm by which it is told when the recording moves: those of the reference, or of the indication without one. */
    public Column trackMm() {
        return hasReference() ? referenceMm() : indicationMm();
    }

    /** Returns true when the recording tells where the sensor had no valid signal. */
    public boolean hasDropout() {
        return dropout != null;
    }

    /**
     * Returns the dropout share of each row, a ratio from 0 to 1, NaN where unknown.
     *
     * @throws IllegalStateException if the recording has none
     */
    public Column dropout() {
        if (dropout == null) {
            throw new IllegalStateException(source + " does not tell dropouts");
        }
        return dropout;
    }

    /**
     * Returns the same recording without what the sensor showed.
     *
     * @throws IllegalStateException if it has no reference, so that nothing would be left
     */
    public Recording withoutIndication() {
        return new Recording(source, timeS, null, referenceMm(), null, Double.NaN, intervalS, breaks, List.of(), notes);
    }

    /**
     * Returns the same recording with the sensor's sense turned round, for one that counts against the reference.
     *
     * @throws IllegalStateException if it has no indication
     */
    public Recording reversed() {
        return new Recording(
                source,
                timeS,
                indicationMm().times(-1),
                referenceMm,
                dropout,
                countMm,
                intervalS,
                breaks,
                illegalTransitions,
                notes);
    }

    /** Returns the distance per count in mm, or NaN when the sensor's readings came in mm. */
    public double countMm() {
        return countMm;
    }

    /**
     * Returns the step in which the indication moves, in mm: the distance per count, or the smallest step of readings in mm.
     *
     * @throws IllegalStateException if the recording has no indication
     */
    double indicationStepMm() {
        return Double.isNaN(countMm) ? indicationMm().smallestStep() : countMm;
    }

    /** Returns true when threads are worth their start for work on every row. */
    public boolean isLong() {
        return SideBySide.worthwhile(size());
    }

    /** Returns the median time between rows in s, NaN for a single row. */
    public double intervalS() {
        return intervalS;
    }

    /** Returns the places where rows do not follow on one another, in order. */
    public List<Break> breaks() {
        return breaks;
    }

    /** Returns the rows of breaks of some kind that lie behind row {@code from} and not behind row {@code to}, ascending. */
    IntStream breakRows(int from, int to, Predicate<Break> kind) {
        return breaks.stream()
                .filter(place -> place.row() > from && place.row() <= to && kind.test(place))
                .mapToInt(Break::row)
                .distinct()
                .sorted();
    }

    /** Returns the parts between the breaks that cut the recording, in order. */
    public List<Segment> segments() {
        return segments;
    }

    /** Returns the transitions of the channels that no direction of travel explains, in order. */
    public List<IllegalTransition> illegalTransitions() {
        return illegalTransitions;
    }

    /** Returns what was remarked while the recording was put together. */
    public List<Note> notes() {
        return notes;
    }
}
