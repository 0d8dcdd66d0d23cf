package slowproof.trial.findings;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.statistics.Statistics;
import slowproof.trial.IndicatedSpeed;
import slowproof.trial.IndicatedSpeed.Ripple;

/** The indicated speed over the passes of a condition. */
final class SpeedOfPasses {
    private SpeedOfPasses() {}

    /** Returns mean error and pooled ripple; null when no pass carries a speed. */
    static @Nullable IndicatedSpeed of(List<Pass> passes) {
        List<IndicatedSpeed> shown =
                passes.stream().map(Pass::speed).filter(Objects::nonNull).toList();
        if (shown.isEmpty()) {
            return null;
        }
        double[] errors = shown.stream().mapToDouble(IndicatedSpeed::error).toArray();
        return new IndicatedSpeed(
                Statistics.mean(errors),
                uncertaintyOfMean(errors, shown),
                ripple(shown.stream()
                        .map(IndicatedSpeed::ripple)
                        .filter(Objects::nonNull)
                        .toList()));
    }

    /** Returns why figures of a speed are not known, by their names in files. */
    static Map<String, ReasonCode> gaps(@Nullable IndicatedSpeed speed, List<Pass> passes) {
        Map<String, ReasonCode> gaps = new LinkedHashMap<>();
        ReasonCode why = passes.get(0).whyNoSpeed();
        if (speed == null) {
            gaps.put("speed_error_pct", why);
            gaps.put("speed_error_standard_uncertainty_pct", why);
        } else if (speed.standardUncertainty() == null) {
            ReasonCode unrepeated = passes.size() == 1 ? ReasonCode.ONE_PASS : ReasonCode.SCATTER_BELOW_RESOLUTION;
            gaps.put("speed_error_standard_uncertainty_pct", unrepeated);
        }
        if (speed == null || speed.ripple() == null) {
            gaps.put("speed_ripple_pct", why);
            gaps.put("speed_ripple_counting_share_pct", why);
            gaps.put("speed_ripple_averaging_s", why);
        }
        return gaps;
    }

    /** Repeats hold the rounding of the counts already; what of it they do not show is rounded alike in every pass. */
    private static @Nullable Double uncertaintyOfMean(double[] errors, List<IndicatedSpeed> shown) {
        double[] counting = shown.stream()
                .map(IndicatedSpeed::standardUncertainty)
                .filter(Objects::nonNull)
                .mapToDouble(u -> u * u)
                .toArray();
        double own = counting.length == 0 ? 0 : Statistics.mean(counting);
        double scatter = 0;
        if (errors.length > 1) {
            double deviation = Statistics.standardDeviation(errors);
            scatter = deviation * deviation;
        }
        double variance = scatter / errors.length + Math.max(own - scatter, 0);
        return variance > 0 ? Double.valueOf(Math.sqrt(variance)) : null;
    }

    /** Ripples are standard deviations, so their squares are averaged. */
    private static @Nullable Ripple ripple(List<Ripple> ripples) {
        if (ripples.isEmpty()) {
            return null;
        }
        double variance = 0;
        double counting = 0;
        for (Ripple ripple : ripples) {
            double own = ripple.standardDeviation() * ripple.standardDeviation();
            variance += own / ripples.size();
            counting += ripple.countingShare() * own / ripples.size();
        }
        return new Ripple(
                Math.sqrt(variance),
                variance > 0 ? counting / variance : 1,
                ripples.get(0).averagingS());
    }
}
