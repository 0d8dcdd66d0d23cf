package slowproof.app.web;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.jspecify.annotations.Nullable;
import slowproof.trial.findings.LineEvidence;

/**
 * The slider of the creep speed, in mm/s: from half the slowest tested speed, where the answer is that nobody knows,
 * to the fastest one that the line and the trial have in common. The described speed is one of its stops.
 *
 * @param low left end
 * @param high right end
 * @param step distance of its stops
 * @param described speed of the line as described
 * @param at where it stands
 */
public record CreepSlider(BigDecimal low, BigDecimal high, BigDecimal step, BigDecimal described, BigDecimal at) {
    private static final double FEWEST_STEPS = 30;
    private static final int DECIMALS = 6;

    /**
     * Returns the slider.
     *
     * @param line line as described
     * @param evidence what was tested
     * @param tried speed that the slider was moved to, or null
     */
    static CreepSlider of(LineForm line, LineEvidence evidence, @Nullable Double tried) {
        double creep = line.creepMmPerS();
        double low = Math.min(creep, evidence.slowestMmPerS() / 2);
        double high = Math.max(creep, Math.min(line.fastMmPerS(), evidence.fastestMmPerS()));
        double span = Math.max(high - low, 1e-3);
        double step = Math.min(1, Math.pow(10, Math.floor(Math.log10(span / FEWEST_STEPS))));
        // whole steps to either side, so that the browser does not move the described speed to a stop beside it
        double left = creep - Math.floor((creep - low) / step + 1e-9) * step;
        double right = creep + Math.floor((high - creep) / step + 1e-9) * step;
        double at = tried == null ? creep : Math.max(left, Math.min(right, tried));
        return new CreepSlider(exact(left), exact(right), exact(step), exact(creep), exact(at));
    }

    private static BigDecimal exact(double value) {
        BigDecimal exact = BigDecimal.valueOf(value)
                .setScale(DECIMALS, RoundingMode.HALF_EVEN)
                .stripTrailingZeros();
        return exact.scale() < 0 ? exact.setScale(0) : exact;
    }

    /** Returns whether the slider stands elsewhere than described. */
    public boolean moved() {
        return at.compareTo(described) != 0;
    }
}
