package slowproof.report.chart;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;

/** Round values along an axis. */
final class Ticks {
    private Ticks() {}

    /** Returns the values 1, 2 and 5 of each decade within the axis; with more than three decades only 1, within one all. */
    static List<Double> decades(Axis axis) {
        double span = Math.log10(axis.high() / axis.low());
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
