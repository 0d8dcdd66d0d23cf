package slowproof.trial.compare;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Distributions;
import slowproof.metrology.Interval;
import slowproof.metrology.uncertainty.Combined;
import slowproof.metrology.uncertainty.Component;

/**
 * The second result less the first, at one speed.
 *
 * <p>The uncertainty is the root of the sum of squares of the scatter of both means and of what else each has of its
 * own; degrees of freedom after Welch and Satterthwaite. Where nothing but scatter is known this is the test of B. L.
 * Welch (Biometrika 34 (1947) 28): t = (m2 - m1)/sqrt(s1^2/n1 + s2^2/n2). A reference that both share has the same
 * error in both and cancels, but for what its fixed part weighs more over the shorter of two lengths; one that they do
 * not share enters twice.
 *
 * @param first first result
 * @param second second result
 * @param difference second mean less first mean, a ratio
 * @param standardUncertainty its standard uncertainty, a ratio; null when a side has no repeats
 * @param freedom effective degrees of freedom; infinity where nothing scattered
 * @param interval 95 % interval; null with the uncertainty
 * @param t difference over its uncertainty; null with it, or when it is zero
 * @param p probability of a difference as large by chance, two-sided; null with t
 * @param adjusted the same after Holm's procedure over all speeds of the pair; null with p
 * @param notes what to keep in mind
 */
public record Difference(
        Level first,
        Level second,
        double difference,
        @Nullable Double standardUncertainty,
        double freedom,
        @Nullable Interval interval,
        @Nullable Double t,
        @Nullable Double p,
        @Nullable Double adjusted,
        Set<Caution> notes) {
    /** Confidence of intervals, and 1 minus the level of the tests. */
    static final double CONFIDENCE = 0.95;

    /** Lengths within this ratio count as the same stroke. */
    private static final double SAME_LENGTH = 1.02;

    /** What to keep in mind. The key of each sentence in the message bundles is {@code caution.} and {@link #key()}. */
    public enum Caution {
        /** A side has no repeats: nothing can be tested. */
        NO_REPEATS,
        /** The accelerations differ, or one is not on record. */
        OTHER_ACCELERATION,
        /** The strokes differ, so start losses weigh differently. */
        OTHER_LENGTH,
        /** One side was driven in one direction only. */
        OTHER_DIRECTION,
        /** The references differ and the uncertainty of one is unknown: the interval is too narrow. */
        REFERENCE_UNKNOWN,
        /** The scatter of a side was pooled over its material. */
        POOLED;

        /** Returns the word in message bundles, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** Copies the set. */
    public Difference {
        notes = notes.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(notes));
    }

    /** Returns true when the difference is significant at 5 % after Holm's procedure. */
    public boolean significant() {
        return adjusted != null && adjusted <= 1 - CONFIDENCE;
    }

    /**
     * Returns the difference of two results, not yet adjusted for several speeds.
     *
     * @param first first result
     * @param second second result
     * @param sharedReference whether one reference measured both
     */
    static Difference of(Level first, Level second, boolean sharedReference) {
        double difference = second.mean() - first.mean();
        Set<Caution> notes = notes(first, second, sharedReference);
        Double ofFirst = first.scatter();
        Double ofSecond = second.scatter();
        if (ofFirst == null || ofSecond == null) {
            return new Difference(
                    first, second, difference, null, Double.POSITIVE_INFINITY, null, null, null, null, notes);
        }
        List<Component> parts = new ArrayList<>();
        parts.add(new Component("scatter of the first", ofFirst, first.freedom()));
        parts.add(new Component("scatter of the second", ofSecond, second.freedom()));
        parts.add(known("others of the first", first.other()));
        parts.add(known("others of the second", second.other()));
        double one = orZero(first.reference());
        double two = orZero(second.reference());
        if (sharedReference) {
            // its error is one and the same; as a ratio its fixed part differs where the lengths do
            parts.add(known("reference, what does not cancel", Math.abs(one - two)));
        } else {
            parts.add(known("reference of the first", one));
            parts.add(known("reference of the second", two));
        }
        Combined combined = Combined.of(parts);
        double u = combined.standardUncertainty();
        double freedom = combined.effectiveDegreesOfFreedom();
        double half = u == 0 ? 0 : Distributions.studentQuantile((1 + CONFIDENCE) / 2, freedom) * u;
        Interval interval = new Interval(difference - half, difference + half);
        if (u == 0) {
            return new Difference(first, second, difference, 0.0, freedom, interval, null, null, null, notes);
        }
        double t = difference / u;
        double p = 2 * Distributions.studentCdf(-Math.abs(t), freedom);
        return new Difference(first, second, difference, u, freedom, interval, t, p, null, notes);
    }

    private static Component known(String source, double uncertainty) {
        return new Component(source, uncertainty, Double.POSITIVE_INFINITY);
    }

    private static double orZero(@Nullable Double value) {
        return value == null ? 0 : value;
    }

    private static Set<Caution> notes(Level first, Level second, boolean sharedReference) {
        Set<Caution> notes = EnumSet.noneOf(Caution.class);
        add(notes, Caution.NO_REPEATS, first.scatter() == null || second.scatter() == null);
        add(notes, Caution.OTHER_ACCELERATION, !first.sameAcceleration(second));
        double ratio = first.lengthMm() / second.lengthMm();
        add(notes, Caution.OTHER_LENGTH, ratio > SAME_LENGTH || 1 / ratio > SAME_LENGTH);
        add(notes, Caution.OTHER_DIRECTION, first.direction() != second.direction());
        boolean unknown = first.reference() == null || second.reference() == null;
        add(notes, Caution.REFERENCE_UNKNOWN, unknown && !sharedReference);
        add(notes, Caution.POOLED, first.pooled() || second.pooled());
        return notes;
    }

    private static void add(Set<Caution> notes, Caution note, boolean holds) {
        if (holds) {
            notes.add(note);
        }
    }

    Difference withAdjusted(double value) {
        return new Difference(first, second, difference, standardUncertainty, freedom, interval, t, p, value, notes);
    }
}
