package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import slowproof.trial.RecordedPass;

/** Groups recorded passes without a programmed speed: plateau speeds of one material within 2 % form a group. */
final class PlateauGroups {
    private static final double WIDTH = 1.02;

    private PlateauGroups() {}

    /** Returns for each pass its programmed speed, or the median plateau speed of its group, in mm/s. */
    static List<Double> speeds(List<RecordedPass> passes) {
        List<Integer> open = new ArrayList<>();
        Double[] speeds = new Double[passes.size()];
        for (int i = 0; i < speeds.length; i++) {
            speeds[i] = passes.get(i).programmedSpeedMmPerS();
            if (speeds[i] == null) {
                open.add(i);
            }
        }
        open.sort(Comparator.<Integer, String>comparing(i -> passes.get(i).material())
                .thenComparingDouble(i -> passes.get(i).plateauSpeedMmPerS()));
        int from = 0;
        for (int i = 1; i <= open.size(); i++) {
            if (i == open.size() || !together(passes.get(open.get(from)), passes.get(open.get(i)))) {
                List<Integer> group = open.subList(from, i);
                double low = passes.get(group.get((group.size() - 1) / 2)).plateauSpeedMmPerS();
                double high = passes.get(group.get(group.size() / 2)).plateauSpeedMmPerS();
                group.forEach(index -> speeds[index] = (low + high) / 2);
                from = i;
            }
        }
        return List.of(speeds);
    }

    private static boolean together(RecordedPass slowest, RecordedPass other) {
        return slowest.material().equals(other.material())
                && other.plateauSpeedMmPerS() <= WIDTH * slowest.plateauSpeedMmPerS();
    }
}
