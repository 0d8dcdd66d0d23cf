package slowproof.files.out;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.IndicatedSpeed;
import slowproof.trial.IndicatedSpeed.Ripple;

/** The figures of an indicated speed as they stand in files, in one order everywhere. */
final class SpeedFigures {
    /** Their keys, also headings of columns. */
    static final List<String> KEYS = List.of(
            "speed_error_pct",
            "speed_error_standard_uncertainty_pct",
            "speed_ripple_pct",
            "speed_ripple_counting_share_pct",
            "speed_ripple_averaging_s");

    private SpeedFigures() {}

    /** Returns the figures in the order of {@link #KEYS}, null for each that is not known. */
    static List<@Nullable Double> of(@Nullable IndicatedSpeed speed) {
        Ripple ripple = speed == null ? null : speed.ripple();
        List<@Nullable Double> figures = new ArrayList<>();
        figures.add(speed == null ? null : percent(speed.error()));
        figures.add(speed == null ? null : percent(speed.standardUncertainty()));
        figures.add(ripple == null ? null : percent(ripple.standardDeviation()));
        figures.add(ripple == null ? null : percent(ripple.countingShare()));
        figures.add(ripple == null ? null : Double.valueOf(ripple.averagingS()));
        return figures;
    }

    private static @Nullable Double percent(@Nullable Double ratio) {
        return ratio == null ? null : Double.valueOf(100 * ratio);
    }
}
