package slowproof.report.chart;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;

/** Round values along an axis. */
final class Ticks {
    private Ticks() {}

    /** Below this share of a decade its whole digits are too few, and even steps serve better. */
    private static final double SHORT = 0.5;

    private static final int STEPS = 5;

    /**
     * Returns the values 1, 2 and 5 of each decade within the axis; with more than three decades only 1, within one all, and
     * even steps on an axis of less than half a decade.
     */
    static List<Double> decades(Axis axis) {
        double span = Math.log10(axis.high() / axis.low());
        if (span < SHORT) {
            return even(axis);
        }
        int[] digits =
                span > 3.5 ? new int[] {1} : span > 1 ? new int[] {1, 2, 5} : new int[] {1, 2, 3, 4, 5, 6, 7, 8, 9};
        List<Double> all = new ArrayList<>();
        for (int decade = (int) Math.floor(Math.log10(axis.low())); Math.pow(10, decade) <= axis.high(); decade++) {
            for (int digit : digits) {
                double value =
                        BigDecimal.valueOf(digit).scaleByPowerOfTen(decade).doubleValue();
                if (value >= axis.low() && value <= axis.high()) {
                    all.add(value);
                }
            }
        }
        return all;
    }

    private static List<Double> even(Axis axis) {
        double wanted = (axis.high() - axis.low()) / STEPS;
        int decade = (int) Math.floor(Math.log10(wanted));
        double digit = wanted / Math.pow(10, decade);
        BigDecimal step = BigDecimal.valueOf(digit > 7 ? 10 : digit > 3 ? 5 : digit > 1.4 ? 2 : 1)
                .scaleByPowerOfTen(decade);
        List<Double> all = new ArrayList<>();
        BigDecimal place = step.multiply(BigDecimal.valueOf((long) Math.ceil(axis.low() / step.doubleValue())));
        for (; place.doubleValue() <= axis.high(); place = place.add(step)) {
            all.add(place.doubleValue());
        }
        return all;
    }

    /** Returns a number as short as its digits allow, with a true minus sign. */
    static String written(double value, char decimalSign) {
        if (value == 0) {
            return "0";
        }
        String text = BigDecimal.valueOf(value)
                .round(new MathContext(6))
                .stripTrailingZeros()
                .toPlainString();
        return text.replace('.', decimalSign).replace('-', '\u2212');
    }
}
