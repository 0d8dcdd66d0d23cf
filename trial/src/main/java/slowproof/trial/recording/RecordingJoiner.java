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
 * the sensor the reference lies on the straight line between its two neighbours, at a row of the reference the
 * sensor's last count still stands. Where either lacks rows there is no row, and a break.
 */
public final class RecordingJoiner {
    private final Recording sensor;
    private final Recording reference;
    private final double[] sensorTime;
    private final double[] referenceTime;
    private final double[] indication;
    private final double[] position;
    private final @Nullable Break[] sensorBreak;
    private final @Nullable Break[] referenceBreak;
    private final Column.Builder times;
    private final Column.Builder shown;
    private final Column.Builder referred;
    private final Column.Builder dropouts;
    private final int[] joinedRow;
    private final List<Break> breaks = new ArrayList<>();
    private boolean rowsMissing;
    private boolean cut;
    private double lastTime;

    private RecordingJoiner(Recording sensor, Recording reference, DoubleUnaryOperator toReferenceTime) {
        this.sensor = sensor;
        this.reference = reference;
        sensorTime = new double[sensor.size()];
        for (int i = 0; i < sensorTime.length; i++) {
            sensorTime[i] = toReferenceTime.applyAsDouble(sensor.timeS().at(i));
        }
        referenceTime = reference.timeS().raw();
        indication = sensor.indicationMm().raw();
        position = reference.referenceMm().raw();
        sensorBreak = breaks(sensor);
        referenceBreak = breaks(reference);
        int rows = sensor.size() + reference.size();
        times = new Column.Builder(rows);
        shown = new Column.Builder(rows);
        referred = new Column.Builder(rows);
        dropouts = new Column.Builder(sensor.hasDropout() ? rows : 0);
        joinedRow = new int[sensor.size()];
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

    private static @Nullable Break[] breaks(Recording recording) {
        @Nullable Break[] breaks = new @Nullable Break[recording.size()];
        for (Break place : recording.breaks()) {
            if (place.cause() == Break.Cause.CLOCK_BACK) {
                throw new IllegalArgumentException("the clock of " + recording.source() + " was set back");
            }
            breaks[place.row()] = place;
        }
        return breaks;
    }

    private Recording join() {
        int s = 0;
        int r = 0;
        while (s < sensor.size() || r < reference.size()) {
            boolean sensorRow = r == reference.size() || (s < sensor.size() && sensorTime[s] <= referenceTime[r]);
            boolean both = sensorRow && r < reference.size() && sensorTime[s] == referenceTime[r];
            if (sensorRow) {
                note(sensorBreak[s]);
                joinedRow[s] = times.size();
            }
            if (both || !sensorRow) {
                note(referenceBreak[r]);
            }
            if (both) {
                add(referenceTime[r], indication[s], position[r], s);
            } else if (sensorRow && r > 0 && r < reference.size() && referenceBreak[r] == null) {
                double share = (sensorTime[s] - referenceTime[r - 1]) / (referenceTime[r] - referenceTime[r - 1]);
                add(sensorTime[s], indication[s], position[r - 1] + share * (position[r] - position[r - 1]), s);
            } else if (!sensorRow && s > 0 && s < sensor.size() && sensorBreak[s] == null) {
                add(referenceTime[r], indication[s - 1], position[r], s);
            }
            s += sensorRow ? 1 : 0;
            r += both || !sensorRow ? 1 : 0;
        }
        if (times.size() < 2) {
            throw BadInputException.of(
                    ProblemCode.LOG_TOO_FEW_ROWS, SourcePosition.ofFile(sensor.source()), times.size());
        }
        int last = times.size() - 1;
        List<IllegalTransition> illegal = sensor.illegalTransitions().stream()
                .map(seen -> new IllegalTransition(Math.min(joinedRow[seen.row()], last), sensorTime[seen.row()]))
                .toList();
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

    private void note(@Nullable Break place) {
        if (place != null) {
            rowsMissing = true;
            cut |= place.splits();
        }
    }

    private void add(double time, double indicationMm, double positionMm, int dropoutRow) {
        int row = times.size();
        if (row > 0 && rowsMissing) {
            breaks.add(new Break(Break.Cause.GAP, row, row + 1L, lastTime, time, cut));
        }
        rowsMissing = false;
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
