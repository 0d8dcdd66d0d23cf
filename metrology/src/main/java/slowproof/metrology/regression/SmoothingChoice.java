package slowproof.metrology.regression;

/** How the weight of a roughness penalty is chosen from the data. */
public enum SmoothingChoice {
    /** Restricted maximum likelihood: the penalty read as a prior on the curve. Seldom too rough. */
    REML,

    /**
     * Generalised cross-validation, or the unbiased estimate of the risk where the scatter is known. Aims at
     * prediction; now and then too rough.
     */
    CROSS_VALIDATION
}
