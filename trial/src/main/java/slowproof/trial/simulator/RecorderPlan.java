package slowproof.trial.simulator;

import java.util.Objects;

/**
 * How a series is recorded: two loggers, each on its own clock. The reference's clock is the true one;
 * t_ref = t_sensor (1 + drift 1e-6) + offset.
 *
 * @param sensorRateHz sampling rate of the sensor by its own clock, Hz, positive
 * @param axisRateHz sampling rate of the reference, Hz, positive
 * @param jitterS standard deviation of the time between the stamp of a sensor sample and the moment it was taken, s, at least 0
 * @param clockOffsetS reference time at sensor time zero, s, signed
 * @param clockDriftPpm how much slow the sensor's clock is, ppm, signed
 * @param latencyS age of the sensor's count when it is sampled, s, at least 0
 * @param register register of the count
 * @param startCount true count at the start of the recording; close to the end of the register to see it wrap
 */
public record RecorderPlan(
        double sensorRateHz,
        double axisRateHz,
        double jitterS,
        double clockOffsetS,
        double clockDriftPpm,
        double latencyS,
        CounterRegister register,
        long startCount) {
    /** Checks the parts. */
    public RecorderPlan {
        Check.positive(sensorRateHz, "sampling rate of the sensor");
        Check.positive(axisRateHz, "sampling rate of the reference");
        Check.notNegative(jitterS, "jitter");
        Check.finite(clockOffsetS, "clock offset");
        if (!(Math.abs(clockDriftPpm) < 1e5)) {
            throw new IllegalArgumentException("clock drift must be below 100 000 ppm: " + clockDriftPpm);
        }
        Check.notNegative(latencyS, "latency");
        Objects.requireNonNull(register, "register");
    }

    /** Returns a recorder that samples both at the same moments of one clock, Hz. */
    public static RecorderPlan oneClock(double rateHz) {
        return twoClocks(rateHz, rateHz, 0, 0);
    }

    /**
     * Returns a recorder with two clocks, without jitter, latency or wrap.
     *
     * @param sensorRateHz Hz
     * @param axisRateHz Hz
     * @param clockOffsetS s
     * @param clockDriftPpm ppm
     */
    public static RecorderPlan twoClocks(
            double sensorRateHz, double axisRateHz, double clockOffsetS, double clockDriftPpm) {
        return new RecorderPlan(
                sensorRateHz, axisRateHz, 0, clockOffsetS, clockDriftPpm, 0, CounterRegister.ENDLESS, 0);
    }

    /** Returns a copy with this jitter, s. */
    public RecorderPlan withJitter(double seconds) {
        return new RecorderPlan(
                sensorRateHz, axisRateHz, seconds, clockOffsetS, clockDriftPpm, latencyS, register, startCount);
    }

    /** Returns a copy with this latency, s. */
    public RecorderPlan withLatency(double seconds) {
        return new RecorderPlan(
                sensorRateHz, axisRateHz, jitterS, clockOffsetS, clockDriftPpm, seconds, register, startCount);
    }

    /** Returns a copy with this register and count at the start. */
    public RecorderPlan withRegister(CounterRegister other, long atStart) {
        return new RecorderPlan(
                sensorRateHz, axisRateHz, jitterS, clockOffsetS, clockDriftPpm, latencyS, other, atStart);
    }
}
