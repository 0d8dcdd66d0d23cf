package slowproof.trial.input;

import java.util.List;

/** The input cannot be used. Carries every problem that was found, in the order of the source. */
public final class BadInputException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient List<InputProblem> problems;

    /**
     * Creates the exception.
     *
     * @param problems at least one problem
     * @throws IllegalArgumentException if the list is empty
     */
    public BadInputException(List<InputProblem> problems) {
        super(
                problems.isEmpty()
                        ? ""
                        : problems.get(0).code() + " at " + problems.get(0).at());
        if (problems.isEmpty()) {
            throw new IllegalArgumentException("bad input needs at least one problem");
        }
        this.problems = List.copyOf(problems);
    }

    /** Creates the exception for one problem. */
    public static BadInputException of(ProblemCode code, SourcePosition at, Object... arguments) {
        return new BadInputException(List.of(InputProblem.of(code, at, arguments)));
    }

    /** Returns the problems, at least one. */
    public List<InputProblem> problems() {
        return problems;
    }
}
