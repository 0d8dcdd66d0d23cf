package slowproof.trial.recording;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.Distributions;

/**
 * Standstill drift of a recording: what the indication gains against the reference over all settled rest, divided by the time of rest.
 *
 * @param mmPerMin drift in mm/min, positive when the indication grows
 * @param standardUncertaintyMmPerMin its standard uncertainty in mm/min, from the scatter of the standstills or the steps of the indication, whichever is larger; above zero
 * @param standstills number of standstills it was found from, at least 1
 * @param observedS time of rest over which it was taken, in all, in s
 */
public record StandstillDrift(double mmPerMin, double standardUncertaintyMmPerMin, int standstills, double observedS) {
    private static final double S_PER_MIN = 60;
    private static final double CONFIDENCE = 0.95;

    /**
     * Returns the drift of some standstills: a ratio of two sums, its uncertainty from the residuals (Cochran, Sampling
     * Techniques, chapter 6, from memory; without the correction for a finite population).
     *
     * @param dwells standstills; those too short to settle, or without a drift, do not count
     * @param stepMm smallest step of the indication in mm, not negative
     * @return the drift; null when no standstill counts
     */
    static @Nullable StandstillDrift of(List<Dwell> dwells, double stepMm) {
        double gained = 0;
        double rested = 0;
        int count = 0;
        for (Dwell dwell : dwells) {
            if (counts(dwell)) {
                gained += gain(dwell);
                rested += dwell.driftOverS();
                count++;
            }
        }
        if (count == 0) {
            return null;
        }
        double drift = gained / rested;
        double squares = 0;
        for (Dwell dwell : dwells) {
            double residual = counts(dwell) ? gain(dwell) - drift * dwell.driftOverS() : 0;
            squares += residual * residual;
        }
        double scatter = count < 2 ? 0 : count * squares / (count - 1);
        // the difference of two readings, each rectangular over one step
        double steps = count * stepMm * stepMm / 6;
        double uncertainty = Math.sqrt(Math.max(scatter, steps)) / rested;
        return new StandstillDrift(S_PER_MIN * drift, S_PER_MIN * uncertainty, count, rested);
    }

    /** Returns true when the drift differs from none at the 5 % level; one standstill cannot tell its own scatter. */
    public boolean significant() {
        return standstills > 1
                && Math.abs(mmPerMin)
                        > Distributions.studentQuantile((1 + CONFIDENCE) / 2, standstills - 1)
                                * standardUncertaintyMmPerMin;
    }

    /** Returns what it makes over the dwells beside a pass, half of each and so a whole one, in mm, not negative; 0 when it does not differ from none. */
    public double overDwellsMm(FoundPass pass) {
        double dwellS = (pass.before().lengthS() + pass.after().lengthS()) / 2;
        return significant() ? Math.abs(mmPerMin) / S_PER_MIN * dwellS : 0;
    }

    private static boolean counts(Dwell dwell) {
        return dwell.settled() && dwell.driftOverS() > 0 && !Double.isNaN(dwell.driftMmPerMin());
    }

    private static double gain(Dwell dwell) {
        return dwell.driftMmPerMin() / S_PER_MIN * dwell.driftOverS();
    }
}
