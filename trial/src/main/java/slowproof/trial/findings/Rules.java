package slowproof.trial.findings;

/** Constants of the evaluation, each with its source. */
final class Rules {
    /** Coverage probability of expanded uncertainties: two standard deviations of a normal distribution (JCGM 100:2008 G.1). */
    static final double COVERAGE_PROBABILITY = 0.9545;

    /** Confidence of intervals. */
    static final double CONFIDENCE = 0.95;

    /** Repeatability limit r = 2.8 s_r (ISO 5725-6:1994, 4.1). */
    static final double REPEATABILITY_LIMIT_FACTOR = 2.8;

    /** Below these degrees of freedom a repeatability is pooled over the material; our rule, see docs/findings.md. */
    static final double FEW_DEGREES_OF_FREEDOM = 4;

    /** Level of a straggler (ISO 5725-2:2019, 8.3). */
    static final double STRAGGLER_LEVEL = 0.05;

    /** Level of a statistical outlier (ISO 5725-2:2019, 8.3). */
    static final double OUTLIER_LEVEL = 0.01;

    /** Ratio of limit to expanded uncertainty of the reference below which a reader is warned; common practice. */
    static final double COMFORTABLE_REFERENCE_RATIO = 4;

    private Rules() {}
}
