package slowproof.files.log;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Note;
import slowproof.trial.recording.Column;

/** Speed over time as a log holds it. Immutable. */
public final class SpeedRows {
    private static final int SHOWN = 20;

    private final double[] timeS;
    private final double[] speedMmPerS;
    private final String sha256;
    private final List<Note> notes;

    private SpeedRows(double[] timeS, double[] speedMmPerS, String sha256, List<Note> notes) {
        this.timeS = timeS;
        this.speedMmPerS = speedMmPerS;
        this.sha256 = sha256;
        this.notes = List.copyOf(notes);
    }

    /** Returns the times in s, strictly ascending; a copy. */
    public double[] timeS() {
        return timeS.clone();
    }

    /** Returns the signed speeds in mm/s, one for each time; a copy. */
    public double[] speedMmPerS() {
        return speedMmPerS.clone();
    }

    /** Returns the SHA-256 of the file's bytes, 64 hexadecimal digits. */
    public String sha256() {
        return sha256;
    }

    /** Returns how the file was read, and remarks. */
    public List<Note> notes() {
        return notes;
    }

    /**
     * Returns the rows of a log.
     *
     * @throws BadInputException with line and column if a cell is empty or time goes back
     */
    static SpeedRows of(LogRead read) {
        Column time = read.column(ColumnRole.TIME);
        Column speed = read.column(ColumnRole.SPEED);
        if (time == null || speed == null) {
            throw new IllegalStateException("a log without time or speed has a problem");
        }
        List<InputProblem> problems = new ArrayList<>();
        double[] times = new double[time.size()];
        double[] speeds = new double[times.length];
        for (int i = 0; i < times.length && problems.size() < SHOWN; i++) {
            times[i] = time.at(i);
            speeds[i] = speed.at(i);
            if (Double.isNaN(times[i]) || Double.isNaN(speeds[i])) {
                ColumnRole empty = Double.isNaN(times[i]) ? ColumnRole.TIME : ColumnRole.SPEED;
                problems.add(InputProblem.of(ProblemCode.VALUE_MISSING, position(read, i, empty)));
            } else if (i > 0 && times[i] <= times[i - 1]) {
                problems.add(InputProblem.of(
                        ProblemCode.LINE_TIME_BACK, position(read, i, ColumnRole.TIME), times[i], times[i - 1]));
            }
        }
        if (!problems.isEmpty()) {
            throw new BadInputException(problems);
        }
        return new SpeedRows(times, speeds, read.sha256(), read.notes());
    }

    private static SourcePosition position(LogRead read, int row, ColumnRole role) {
        ReadAs.Taken taken = read.taken(role);
        String field = taken.heading().isEmpty() ? role.key() : taken.heading();
        return new SourcePosition(read.readAs().file(), read.lines().line(row), taken.number(), field);
    }
}
