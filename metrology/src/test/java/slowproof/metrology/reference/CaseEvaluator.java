package slowproof.metrology.reference;

import java.util.Map;

/** Computes the figures of the reference cases of one sort with the project's own code. */
public interface CaseEvaluator {
    /** Whether this evaluator computes that case. */
    boolean handles(ReferenceCase reference);

    /** The computed figures by name; every expected name of the case must be there. */
    Map<String, Double> compute(ReferenceCase reference);

    /** What the case is held to; the tolerance stated with each figure unless an evaluator asks for digits. */
    default Requirement requirement(ReferenceCase reference) {
        return Requirement.TOLERANCE;
    }
}
