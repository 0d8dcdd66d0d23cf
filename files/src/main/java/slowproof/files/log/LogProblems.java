package slowproof.files.log;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;

/** Collects what is wrong with a log: the first twenty problems, and how many more there are. One reading thread. */
final class LogProblems {
    private static final int SHOWN = 20;

    private final String file;
    private final List<InputProblem> first = new ArrayList<>();
    private long more;

    LogProblems(String file) {
        this.file = file;
    }

    /** Notes a problem of a cell; line and column count from 1, 0 for none. */
    void add(ProblemCode code, long line, int column, String field, Object... arguments) {
        if (first.size() < SHOWN) {
            first.add(InputProblem.of(code, new SourcePosition(file, line, column, field), arguments));
        } else {
            more++;
        }
    }

    boolean any() {
        return !first.isEmpty();
    }

    /**
     * Does nothing when nothing is wrong.
     *
     * @throws BadInputException with the first problems and, last, the number of others
     */
    void refuseIfAny() {
        if (first.isEmpty()) {
            return;
        }
        List<InputProblem> all = new ArrayList<>(first);
        if (more > 0) {
            all.add(InputProblem.of(ProblemCode.LOG_MORE_PROBLEMS, SourcePosition.ofFile(file), more));
        }
        throw new BadInputException(all);
    }
}
