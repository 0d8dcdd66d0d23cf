package slowproof.trial.simulator;

/** How the passes of a series follow each other. */
public enum PassPattern {
    /** Forward and back over the same way: a carriage. One cycle is a forward and a return stroke. */
    ALTERNATING,
    /** Always forward: a running web. One cycle is one stroke. */
    ONE_WAY
}
