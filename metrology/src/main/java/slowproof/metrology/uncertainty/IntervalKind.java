package slowproof.metrology.uncertainty;

/** Which of the coverage intervals of one probability is meant (JCGM 101:2008, 5.3, from memory). */
public enum IntervalKind {
    /** As much probability below the interval as above it. */
    SYMMETRIC,
    /** The shortest of all; its ends are less certain when the distribution is flat. */
    SHORTEST
}
