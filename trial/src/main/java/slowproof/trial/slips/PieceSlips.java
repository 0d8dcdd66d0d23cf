package slowproof.trial.slips;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.Piece;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.note.Quantity;

/** Slips in one piece. */
final class PieceSlips {
    private PieceSlips() {}

    static List<InputProblem> questions(Piece piece) {
        List<InputProblem> questions = new ArrayList<>();
        double length = Math.abs(piece.referenceMm());
        Quantity reading = Quantity.mm(piece.readingMm());
        if (SlowMove.suspected(length, piece.speedMmPerS())) {
            questions.add(InputProblem.of(
                    ProblemCode.QUESTION_SLOW_MOVE,
                    piece.at(),
                    piece.name(),
                    Quantity.mmPerS(piece.speedMmPerS()),
                    Quantity.mm(length),
                    SlowMove.hours(length, piece.speedMmPerS())));
        }
        double ratio = piece.readingMm() / piece.referenceMm();
        if (Ratios.nothing(ratio)) {
            questions.add(InputProblem.of(
                    ProblemCode.QUESTION_ERROR_TYPED, piece.at(), piece.name(), reading, Quantity.mm(length)));
        } else if (Ratios.unit(ratio) != 0) {
            questions.add(InputProblem.of(ProblemCode.QUESTION_SCALE, piece.at(), piece.name(), Ratios.unit(ratio)));
        } else if (Ratios.near(ratio, -1)) {
            questions.add(InputProblem.of(ProblemCode.QUESTION_SIGN_REVERSED, piece.at(), piece.name()));
        } else if (!Ratios.ordinary(ratio)) {
            questions.add(InputProblem.of(
                    ProblemCode.QUESTION_SLOPE, piece.at(), piece.name(), reading, Quantity.mm(length)));
        }
        return questions;
    }
}
