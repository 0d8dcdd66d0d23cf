package slowproof.trial.line;

import java.util.ArrayList;
import java.util.List;

/**
 * Writes a cycle so that its fastest hold takes what is left of the piece. The motion stays the same; but when ramps or creep
 * are changed afterwards, the fast part gives or takes the way, as on a line that begins to slow down at a fixed place before
 * the cut, and creep stays as long as it is.
 */
final class RestPlace {
    private RestPlace() {}

    /**
     * Returns the steps written so, or the same steps where there is nothing to change.
     *
     * @param steps steps that make the travel
     * @param travelMm net travel of the cycle, mm
     */
    static List<LineStep> atFastest(List<LineStep> steps, double travelMm) {
        int rest = -1;
        int fastest = -1;
        double most = 0;
        double speed = 0;
        for (int i = 0; i < steps.size(); i++) {
            LineStep step = steps.get(i);
            if (step instanceof LineStep.RampTo ramp) {
                speed = ramp.speedMmPerS();
            }
            boolean left = step instanceof LineStep.HoldRest;
            rest = left ? i : rest;
            boolean held = left || step instanceof LineStep.HoldMm || step instanceof LineStep.HoldS;
            if (held && (speed > most || (left && speed == most))) {
                most = speed;
                fastest = i;
            }
        }
        if (fastest < 0 || fastest == rest) {
            return steps;
        }
        List<LineStep> changed = new ArrayList<>(steps);
        if (rest >= 0) {
            // a cycle that just fills its piece may miss it by a rounding; one that truly does is refused when it is
            // driven
            changed.set(rest, new LineStep.HoldMm(Math.max(0, CycleMotion.restMm(steps, travelMm))));
        }
        changed.set(fastest, new LineStep.HoldRest());
        return changed;
    }
}
