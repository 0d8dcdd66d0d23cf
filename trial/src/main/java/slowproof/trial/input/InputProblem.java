package slowproof.trial.input;

import java.util.List;
import java.util.Objects;

/**
 * One thing that is wrong with the input, as data; module wording makes the sentence of it (what was found,
 * where, what was expected, how to mend it).
 *
 * @param code what is wrong
 * @param at where
 * @param arguments what the sentence needs, in the order of the message: text, numbers, quantities, or lists of them
 */
public record InputProblem(ProblemCode code, SourcePosition at, List<Object> arguments) {
    /** Checks and copies the parts. */
    public InputProblem {
        Objects.requireNonNull(code, "code");
        Objects.requireNonNull(at, "at");
        arguments = List.copyOf(arguments);
    }

    /** Returns a problem with the given arguments. */
    public static InputProblem of(ProblemCode code, SourcePosition at, Object... arguments) {
        return new InputProblem(code, at, List.of(arguments));
    }
}
