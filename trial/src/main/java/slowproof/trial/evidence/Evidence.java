package slowproof.trial.evidence;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What one trial has shown about one surface.
 *
 * @param material name of the surface, empty when nobody named it
 * @param slowestMmPerS slowest tested speed in mm/s
 * @param fastestMmPerS fastest tested speed in mm/s
 * @param slowestAccelerationMmPerS2 smallest acceleration in mm/s2; null when it is not on record
 * @param fastestAccelerationMmPerS2 largest acceleration in mm/s2, or null
 * @param shortestMm shortest pass in mm
 * @param longestMm longest pass in mm
 * @param referenceKnown whether the uncertainty of the reference is on record
 * @param points results, one a condition and direction
 */
public record Evidence(
        String material,
        double slowestMmPerS,
        double fastestMmPerS,
        @Nullable Double slowestAccelerationMmPerS2,
        @Nullable Double fastestAccelerationMmPerS2,
        double shortestMm,
        double longestMm,
        boolean referenceKnown,
        List<Point> points) {
    /** Copies the list. */
    public Evidence {
        points = List.copyOf(points);
    }

    /**
     * The result of one condition in one direction.
     *
     * @param speedMmPerS programmed speed in mm/s
     * @param error mean relative error
     * @param uncertainty expanded uncertainty of the mean (95.45 %), a ratio
     * @param passUncertainty standard uncertainty of one future pass about the mean error, a ratio; null when nothing
     *     was repeated
     * @param passFreedom its effective degrees of freedom; infinity where nothing was estimated from repeats
     * @param passes how many passes
     * @param referenceUncertainty expanded uncertainty of the reference at the length of the passes, a ratio; null when it is
     *     not on record
     */
    public record Point(
            double speedMmPerS,
            double error,
            double uncertainty,
            @Nullable Double passUncertainty,
            double passFreedom,
            int passes,
            @Nullable Double referenceUncertainty) {}
}
