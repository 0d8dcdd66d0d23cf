package slowproof.metrology.uncertainty;

import slowproof.metrology.Interval;
import slowproof.metrology.sampling.Moments;

/** Scatter of the block results. */
final class Stability {
    private final Adaptive rule;
    private final double probability;
    private Moments values = Moments.NONE;
    private final Moments[] results = {Moments.NONE, Moments.NONE, Moments.NONE, Moments.NONE};

    Stability(Adaptive rule, double probability) {
        this.rule = rule;
        this.probability = probability;
    }

    void add(PropagatedBlock block) {
        values = values.plus(block.moments());
        Interval interval = block.interval(rule.interval(), probability);
        double[] found = {block.moments().mean(), block.moments().standardDeviation(), interval.low(), interval.high()};
        for (int i = 0; i < found.length; i++) {
            results[i] = results[i].plus(new Moments(1, found[i], 0));
        }
    }

    boolean reached() {
        double uncertainty = values.standardDeviation();
        if (uncertainty == 0) {
            return true;
        }
        double tolerance = rule.toleranceShare() * NumericalTolerance.of(uncertainty, rule.digits());
        for (Moments result : results) {
            if (!(2 * result.standardDeviation() / Math.sqrt((double) result.count()) < tolerance)) {
                return false;
            }
        }
        return true;
    }
}
