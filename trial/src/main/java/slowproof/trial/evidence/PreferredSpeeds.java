package slowproof.trial.evidence;

import java.math.BigDecimal;
import java.math.MathContext;

/** Speeds that are easy to set and to remember: preferred numbers of the series R10 (ISO 3:1973, from memory). */
public final class PreferredSpeeds {
    /** Ratio of two tested speeds below which a further one between them tells little; our choice. */
    public static final double NARROW = 1.3;

    private static final double[] PREFERRED = {1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10};

    private PreferredSpeeds() {}

    /**
     * Returns the preferred number nearest in ratio.
     *
     * @param speed above zero
     */
    public static double nearest(double speed) {
        double decade = Math.pow(10, Math.floor(Math.log10(speed)));
        double best = decade;
        for (double number : PREFERRED) {
            if (Math.abs(Math.log(number * decade / speed)) < Math.abs(Math.log(best / speed))) {
                best = number * decade;
            }
        }
        return new BigDecimal(best).round(new MathContext(3)).doubleValue();
    }

    /** Returns a speed between two others, preferred where one of that series lies between them, else to two digits. */
    public static double between(double slow, double fast) {
        double middle = Math.sqrt(slow * fast);
        double preferred = nearest(middle);
        boolean inside = preferred > slow && preferred < fast;
        return inside
                ? preferred
                : new BigDecimal(middle).round(new MathContext(2)).doubleValue();
    }
}
