package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Note;

/**
 * Joins a sensor's and a reference's recording to one on the reference's clock. Rows of both are kept: at a row of
 * the sensor the reference lies on the straight line between its two neighbours. At a row of the reference the sensor's last
 * count still stands where it counts one by one; where it took several counts from row to row, it lies on the straight line too,
 * or every speed over a few rows would be wrong by what is held back. Where either lacks rows there is no row, and a break.
 */
public final class RecordingJoiner {
    /** A step of one count, in counts. */
    private static final double SINGLE_COUNT = 1.5;

    private final Recording sensor;
    private final Recording reference;
    private final DoubleUnaryOperator toReferenceTime;
    private final Column referenceTime;
    private final Column indication;
    private final Column position;
    private final Breaks sensorBreaks;
    private final Breaks referenceBreaks;
    private final Column.Builder times;
    private final Column.Builder shown;
    private final Column.Builder referred;
    private final Column.Builder dropouts;
    private final List<IllegalTransition> illegal = new ArrayList<>();
    private final List<Break> breaks = new ArrayList<>();
    private final double countMm;
    private boolean rowsMissing;

    /** True as long as all that is missing are values of rows whose share of dropout is known. */
    private boolean shareKnown = true;

    private boolean cut;
    private double lastTime;

    private RecordingJoiner(Recording sensor, Recording reference, DoubleUnaryOperator toReferenceTime) {
        this.sensor = sensor;
        this.reference = reference;
        this.toReferenceTime = toReferenceTime;
        referenceTime = reference.timeS();
        indication = sensor.indicationMm();
        countMm = sensor.indicationStepMm();
        position = reference.referenceMm();
        sensorBreaks = new Breaks(sensor);
        referenceBreaks = new Breaks(reference);
        int rows = (int) Math.min((long) sensor.size() + reference.size(), Integer.MAX_VALUE - 8);
        times = referenceTime.sibling(rows);
        shown = referenceTime.sibling(rows);
        referred = referenceTime.sibling(rows);
        dropouts = referenceTime.sibling(sensor.hasDropout() ? rows : 0);
    }

    /**
     * Returns the joined recording, named after the sensor's.
     *
     * @param sensor a recording with an indication, its clock never set back
     * @param reference a recording with a reference, its clock never set back
     * @param toReferenceTime the reference's time in s for a time of the sensor's clock in s, ascending
     * @throws BadInputException if both have fewer than two rows in common
     * @throws IllegalArgumentException if a clock was set back
     */
    public static Recording join(Recording sensor, Recording reference, DoubleUnaryOperator toReferenceTime) {
        return new RecordingJoiner(sensor, reference, toReferenceTime).join();
    }

    /** The breaks of a recording, met row by row. */
    private static final class Breaks {
        private final List<Break> all;
        private int next;

        Breaks(Recording recording) {
            all = recording.breaks();
            if (all.stream().anyMatch(place -> place.cause() == Break.Cause.CLOCK_BACK)) {
                throw new IllegalArgumentException("the clock of " + recording.source() + " was set back");
            }
        }

        /** Returns the break before a row, or null; rows are asked for in order. */
        @Nullable
        Break before(int row) {
            while (next < all.size() && all.get(next).row() < row) {
                next++;
            }
            return next < all.size() && all.get(next).row() == row ? all.get(next) : null;
        }
    }

    private double sensorTime(int row) {
        return toReferenceTime.applyAsDouble(sensor.timeS().get(row));
    }

    private Recording join() {
        int s = 0;
        int r = 0;
        int seen = 0;
        List<IllegalTransition> sensorIllegal = sensor.illegalTransitions();
        while (s < sensor.size() || r < reference.size()) {
            double sensorTime = s < sensor.size() ? sensorTime(s) : Double.POSITIVE_INFINITY;
            double time = r < reference.size() ? referenceTime.get(r) : Double.POSITIVE_INFINITY;
            boolean sensorRow = r == reference.size() || (s < sensor.size() && sensorTime <= time);
            boolean both = sensorRow && r < reference.size() && sensorTime == time;
            Break sensorBreak = sensorBreaks.before(s);
            Break referenceBreak = referenceBreaks.before(r);
            if (sensorRow) {
                note(sensorBreak);
                for (; seen < sensorIllegal.size() && sensorIllegal.get(seen).row() <= s; seen++) {
                    illegal.add(new IllegalTransition(times.size(), sensorTime));
                }
            }
            if (both || !sensorRow) {
                note(referenceBreak);
            }
            if (both) {
                add(time, indication.get(s), position.get(r), s);
            } else if (sensorRow && r > 0 && r < reference.size() && referenceBreak == null) {
                double before = referenceTime.get(r - 1);
                double share = (sensorTime - before) / (time - before);
                double from = position.get(r - 1);
                add(sensorTime, indication.get(s), from + share * (position.get(r) - from), s);
            } else if (!sensorRow && s > 0 && s < sensor.size() && sensorBreak == null) {
                add(time, shownAt(time, s, sensorTime), position.get(r), s);
            }
            s += sensorRow ? 1 : 0;
            r += both || !sensorRow ? 1 : 0;
        }
        if (times.size() < 2) {
            throw BadInputException.of(
                    ProblemCode.LOG_TOO_FEW_ROWS, SourcePosition.ofFile(sensor.source()), times.size());
        }
        int last = times.size() - 1;
        illegal.replaceAll(place -> new IllegalTransition(Math.min(place.row(), last), place.timeS()));
        List<Note> notes = new ArrayList<>(sensor.notes());
        notes.addAll(reference.notes());
        return new Recording(
                sensor.source(),
                times.build(),
                shown.build(),
                referred.build(),
                sensor.hasDropout() ? dropouts.build() : null,
                sensor.countMm(),
                Math.min(sensor.intervalS(), reference.intervalS()),
                breaks,
                illegal,
                notes);
    }

    /** Returns the indication in mm at a time between two rows of the sensor, the later one of which is given. */
    private double shownAt(double time, int later, double laterTime) {
        double before = indication.get(later - 1);
        double step = indication.get(later) - before;
        if (Math.abs(step) <= SINGLE_COUNT * countMm) {
            return before;
        }
        double from = sensorTime(later - 1);
        return before + step * (time - from) / (laterTime - from);
    }

    private void note(@Nullable Break place) {
        if (place != null) {
            rowsMissing = true;
            cut |= place.splits();
            shareKnown &= place.cause() == Break.Cause.NO_VALUE;
        }
    }

    private void add(double time, double indicationMm, double positionMm, int dropoutRow) {
        int row = times.size();
        if (row > 0 && rowsMissing) {
            Break.Cause cause = shareKnown ? Break.Cause.NO_VALUE : Break.Cause.GAP;
            breaks.add(new Break(cause, row, row + 1L, lastTime, time, cut));
        }
        rowsMissing = false;
        shareKnown = true;
        cut = false;
        lastTime = time;
        times.add(time);
        shown.add(indicationMm);
        referred.add(positionMm);
        if (sensor.hasDropout()) {
            dropouts.add(sensor.dropout().at(dropoutRow));
        }
    }
}
