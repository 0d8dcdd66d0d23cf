package slowproof.files.in;

import org.jspecify.annotations.Nullable;

/**
 * How a recording was understood.
 *
 * @param file name as the trial gives it
 * @param material material
 * @param readAs format in words
 * @param clock relation of its two clocks; null with one clock
 * @param reason why there is no clock relation; null with one
 */
public record RecordingRead(
        String file,
        String material,
        String readAs,
        @Nullable Clock clock,
        @Nullable String reason) {

    /**
     * How the clock of the sensor runs against that of the reference: t_ref = t_sensor (1 + drift) + offset.
     *
     * @param offsetS offset at sensor time zero in s
     * @param driftPpm drift in 1e-6, positive when the sensor clock is slow
     * @param offsetStandardUncertaintyS standard uncertainty of the offset in s
     * @param driftStandardUncertaintyPpm standard uncertainty of the drift in 1e-6
     */
    public record Clock(
            double offsetS, double driftPpm, double offsetStandardUncertaintyS, double driftStandardUncertaintyPpm) {}
}
