package slowproof.files.in;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;

/** Collects what is wrong with an input, so that all of it is told at once. Owned by one reading thread. */
public final class Problems {
    private final List<InputProblem> found = new ArrayList<>();
    private final List<InputProblem> questions = new ArrayList<>();

    /** Notes one problem. */
    public void add(ProblemCode code, SourcePosition at, Object... arguments) {
        found.add(InputProblem.of(code, at, arguments));
    }

    /** Notes what is plausible but most likely a slip, for a person to confirm or to mend. */
    public void ask(ProblemCode code, SourcePosition at, Object... arguments) {
        questions.add(InputProblem.of(code, at, arguments));
    }

    /** Returns the questions noted. */
    public List<InputProblem> questions() {
        return List.copyOf(questions);
    }

    /** Notes problems that somebody else found. */
    public void addAll(List<InputProblem> problems) {
        found.addAll(problems);
    }

    /** Returns how many problems were noted. */
    public int count() {
        return found.size();
    }

    /**
     * Does nothing when nothing is wrong.
     *
     * @throws BadInputException with all problems otherwise
     */
    public void refuseIfAny() {
        if (!found.isEmpty()) {
            throw new BadInputException(found);
        }
    }
}
