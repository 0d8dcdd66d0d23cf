package slowproof.trial.findings;

import org.jspecify.annotations.Nullable;
import slowproof.metrology.statistics.PooledDeviation;

/**
 * The repeatability that a decision uses: the condition's own, or the material's pooled one when the own has
 * fewer than 4 degrees of freedom and Cochran's test finds the variances alike.
 *
 * @param standardDeviation standard deviation of a relative error, a ratio
 * @param degreesOfFreedom its degrees of freedom, above zero
 * @param flag what is to be said of it, or null
 */
record Spread(
        double standardDeviation,
        double degreesOfFreedom,
        @Nullable Flag flag) {

    /** Returns the spread to use, or null when nothing was repeated that could stand for it. */
    static @Nullable Spread choose(@Nullable PooledDeviation own, MaterialScatter material) {
        if (own != null && own.degreesOfFreedom() >= Rules.FEW_DEGREES_OF_FREEDOM) {
            return new Spread(own.standardDeviation(), own.degreesOfFreedom(), null);
        }
        PooledDeviation pooled = material.pooled();
        double ownFreedom = own == null ? 0 : own.degreesOfFreedom();
        if (pooled != null && material.alike() && pooled.degreesOfFreedom() > ownFreedom) {
            return new Spread(pooled.standardDeviation(), pooled.degreesOfFreedom(), Flag.POOLED_REPEATABILITY);
        }
        return own == null ? null : new Spread(own.standardDeviation(), own.degreesOfFreedom(), Flag.FEW_REPEATS);
    }

    /** Returns the spread after so many further passes that scatter alike. */
    Spread withMore(int passes) {
        return new Spread(standardDeviation, degreesOfFreedom + passes, flag);
    }
}
