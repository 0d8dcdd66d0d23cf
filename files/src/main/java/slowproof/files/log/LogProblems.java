package slowproof.files.log;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;

/**
 * Collects what is wrong with a log: the first nineteen problems, and in the twentieth place how many more there are
 * from there on. One reading thread.
 */
final class LogProblems {
    private static final int SHOWN = 20;

    private final String file;
    private final List<InputProblem> first = new ArrayList<>();
    private long count;

    LogProblems(String file) {
        this.file = file;
    }

    /** Notes a problem of a cell; line and column count from 1, 0 for none. */
    void add(ProblemCode code, long line, int column, String field, Object... arguments) {
        count++;
        if (first.size() < SHOWN) {
            first.add(InputProblem.of(code, new SourcePosition(file, line, column, field), arguments));
        }
    }

    boolean any() {
        return count > 0;
    }

    /** Returns the first problems. */
    List<InputProblem> first() {
        return List.copyOf(first);
    }

    /**
     * Does nothing when nothing is wrong.
     *
     * @throws BadInputException with at most twenty problems, the last of them the number of others if there are more
     */
    void refuseIfAny() {
        if (count > SHOWN) {
            InputProblem last = first.remove(SHOWN - 1);
            first.add(InputProblem.of(ProblemCode.LOG_MORE_PROBLEMS, last.at(), count - SHOWN + 1));
        }
        if (count > 0) {
            throw new BadInputException(first);
        }
    }
}
