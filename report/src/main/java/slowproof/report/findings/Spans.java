package slowproof.report.findings;

import slowproof.report.chart.Axis;

/** The ends of an axis that holds all values given to it, with room at both sides. */
final class Spans {
    private static final double ROOM = 0.06;

    private double low = Double.POSITIVE_INFINITY;
    private double high = Double.NEGATIVE_INFINITY;

    Spans with(double... values) {
        for (double value : values) {
            if (Double.isFinite(value)) {
                low = Math.min(low, value);
                high = Math.max(high, value);
            }
        }
        return this;
    }

    /** Returns the least value; positive infinity without one. */
    double low() {
        return low;
    }

    /** Returns the greatest value; negative infinity without one. */
    double high() {
        return high;
    }

    Axis linear(String label) {
        double room = high > low ? ROOM * (high - low) : Math.max(1e-3, 0.1 * Math.abs(high));
        return Axis.linear(label, low - room, high + room);
    }

    /** Starts at zero, for shares and counts. */
    Axis fromZero(String label) {
        return Axis.linear(label, 0, high > 0 ? high * (1 + ROOM) : 1);
    }

    Axis decades(String label) {
        double factor = Math.max(1.2, Math.pow(high / low, ROOM));
        return Axis.decades(label, low / factor, high * factor);
    }
}
