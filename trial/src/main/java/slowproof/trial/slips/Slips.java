package slowproof.trial.slips;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.Piece;
import slowproof.trial.ReadingMode;
import slowproof.trial.Sensor;
import slowproof.trial.Series;
import slowproof.trial.Trial;
import slowproof.trial.input.InputProblem;

/**
 * Looks over typed readings for slips that would give a wrong but plausible answer: the displayed error typed
 * in place of the reading, a counter zeroed before each pass, columns exchanged, signs, units, digits; and over
 * recordings for a wrong sign or scale. Each is
 * a question, because a failing sensor can look the same; a person who confirms it keeps the readings as they are.
 */
public final class Slips {
    private Slips() {}

    /**
     * Returns the questions that the readings of a trial raise, in file order.
     *
     * @param trial the trial
     */
    public static List<InputProblem> questions(Trial trial) {
        List<InputProblem> questions = new ArrayList<>();
        if (trial.mode() == ReadingMode.CUMULATIVE) {
            questions.addAll(SwappedColumns.questions(trial));
        }
        if (!questions.isEmpty()) {
            // every further figure would be judged with the columns the wrong way round
            return questions;
        }
        for (Series series : trial.series()) {
            questions.addAll(new SeriesSlips(series, trial.mode(), registerMm(trial.sensor())).questions());
        }
        questions.addAll(RecordingSlips.questions(trial.recorded()));
        for (Piece piece : trial.pieces()) {
            questions.addAll(PieceSlips.questions(piece));
        }
        return List.copyOf(questions);
    }

    private static double registerMm(Sensor sensor) {
        Integer bits = sensor.counterBits();
        Double count = sensor.distancePerCountMm();
        return bits == null || count == null ? 0 : Math.scalb(count, bits);
    }
}
