package slowproof.files.in;

import org.jspecify.annotations.Nullable;
import slowproof.trial.clock.ClockFit;

/**
 * How a recording was understood.
 *
 * @param file name as the trial gives it, of two logs that of the sensor
 * @param referenceFile name of the log of the reference; null when there is none of its own
 * @param material material
 * @param readAs format in words
 * @param clock relation of its two clocks; null with one clock
 * @param reason why there is no clock relation; null with one
 * @param cut how it was cut into passes
 */
public record RecordingRead(
        String file,
        @Nullable String referenceFile,
        String material,
        String readAs,
        @Nullable Clock clock,
        @Nullable String reason,
        RecordingCut cut) {

    /**
     * How the clock of the sensor runs against that of the reference: t_ref = t_sensor (1 + drift) + offset. The
     * offset includes the sensor's latency.
     *
     * @param offsetS offset at sensor time zero in s
     * @param driftPpm drift in 1e-6, positive when the sensor clock is slow; null when the record carries no figure
     * @param offsetStandardUncertaintyS standard uncertainty of the offset in s
     * @param driftStandardUncertaintyPpm standard uncertainty of the drift in 1e-6; null when there is no drift
     * @param epochS middle of the common time by the sensor's clock in s
     * @param offsetMidS offset at that time in s, where it is known best
     * @param offsetMidStandardUncertaintyS its standard uncertainty in s
     */
    public record Clock(
            double offsetS,
            @Nullable Double driftPpm,
            double offsetStandardUncertaintyS,
            @Nullable Double driftStandardUncertaintyPpm,
            double epochS,
            double offsetMidS,
            double offsetMidStandardUncertaintyS) {
        static Clock of(ClockFit fit) {
            return new Clock(
                    fit.offsetS(),
                    fit.driftMeasured() ? fit.driftPpm() : null,
                    fit.offsetStandardUncertaintyS(),
                    fit.driftMeasured() ? fit.driftStandardUncertaintyPpm() : null,
                    fit.epochS(),
                    fit.offsetAtEpochS(),
                    fit.offsetAtEpochStandardUncertaintyS());
        }
    }
}
