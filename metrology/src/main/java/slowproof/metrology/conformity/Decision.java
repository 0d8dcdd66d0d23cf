package slowproof.metrology.conformity;

/** The answer to the question whether a quantity lies inside its limit. */
public enum Decision {
    /** Inside, at the risk that the rule allows. */
    CONFORMS,
    /** Outside, at the risk that the rule allows. */
    DOES_NOT_CONFORM,
    /** The uncertainty forbids either answer. */
    UNDECIDED
}
