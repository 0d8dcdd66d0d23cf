package slowproof.trial.simulator;

import java.util.List;

/**
 * Simulated readings and the truth beside them.
 *
 * @param readings the standstills, series by series in the order of the plan
 * @param passes the true passes, in the same order
 * @param referenceScaleErrorRatio scale error of the reference that was drawn for this trial, ratio
 */
public record BenchReadings(List<SimReading> readings, List<PassTruth> passes, double referenceScaleErrorRatio) {
    /** Copies the lists. */
    public BenchReadings {
        readings = List.copyOf(readings);
        passes = List.copyOf(passes);
    }
}
