package slowproof.trial.scatter;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The passes of one speed, acceleration, number of starts and stroke. Strokes within 2 % of the shortest of the
 * block count as one.
 */
public final class ConditionBlock {
    private static final double SAME_STROKE = 0.02;

    private final List<PassError> passes;

    private ConditionBlock(List<PassError> passes) {
        this.passes = List.copyOf(passes);
    }

    /** Returns the blocks of the passes, by ascending speed, acceleration, starts and stroke. */
    public static List<ConditionBlock> of(List<PassError> passes) {
        List<PassError> ordered = new ArrayList<>(passes);
        ordered.sort(Comparator.comparingDouble(PassError::speedMmPerS)
                .thenComparingDouble(PassError::accelerationMmPerS2)
                .thenComparingInt(PassError::starts)
                .thenComparingDouble(PassError::travelMm));
        List<ConditionBlock> blocks = new ArrayList<>();
        List<PassError> group = new ArrayList<>();
        for (PassError pass : ordered) {
            if (!group.isEmpty() && !together(group.get(0), pass)) {
                blocks.add(closed(group));
                group = new ArrayList<>();
            }
            group.add(pass);
        }
        if (!group.isEmpty()) {
            blocks.add(closed(group));
        }
        return blocks;
    }

    /** Returns the passes, series by series in the order of their names, each in the order run. */
    public List<PassError> passes() {
        return passes;
    }

    /** Returns the mean travel of a pass in mm. */
    public double meanTravelMm() {
        double sum = 0;
        for (PassError pass : passes) {
            sum += pass.travelMm();
        }
        return sum / passes.size();
    }

    /** Returns the number of starts per pass. */
    public int starts() {
        return passes.get(0).starts();
    }

    /** Returns the number of series. */
    public int series() {
        return (int) passes.stream().map(PassError::series).distinct().count();
    }

    /**
     * Tells whether two neighbours of {@link #passes} share a reading.
     *
     * @param i index of the later one, at least 1
     */
    public boolean sharesReading(int i) {
        PassError pass = passes.get(i);
        PassError before = passes.get(i - 1);
        return pass.sharesReadingWithPrevious()
                && pass.series().equals(before.series())
                && pass.indexInSeries() == before.indexInSeries() + 1;
    }

    private static boolean together(PassError first, PassError other) {
        return first.speedMmPerS() == other.speedMmPerS()
                && Double.compare(first.accelerationMmPerS2(), other.accelerationMmPerS2()) == 0
                && first.starts() == other.starts()
                && other.travelMm() <= first.travelMm() * (1 + SAME_STROKE);
    }

    private static ConditionBlock closed(List<PassError> group) {
        group.sort(Comparator.comparing(PassError::series).thenComparingInt(PassError::indexInSeries));
        return new ConditionBlock(group);
    }
}
