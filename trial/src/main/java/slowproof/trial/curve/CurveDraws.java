package slowproof.trial.curve;

import java.util.Arrays;
import slowproof.trial.spectrum.KnotDistances;
import slowproof.trial.spectrum.TravelSpectrum;

/**
 * Draws from the posterior of an error curve, on nodes in speed. Between nodes a curve is straight in ln v, so that
 * the error of a motion is the sum of its knot distances times the draw. Each draw contains one draw of the
 * reference's error, common to all speeds; {@link #referenceShift} gives it apart, so that it can be
 * accounted for by itself or shared between materials.
 *
 * <p>Immutable; the arrays are not handed out.
 */
public final class CurveDraws {
    /** Numbers of a draw beside its errors at the nodes. */
    private static final int BESIDE_EPS = 4;

    private final double[] nodesMmPerS;
    private final double[] x;
    private final double[][] eps;
    private final double[] base;
    private final int[] sign;
    private final double[] startMm;
    private final double[] shift;

    /**
     * Takes the arrays over; the caller keeps no reference.
     *
     * @param base base b of each draw, from which the departure is counted
     * @param sign +1 or -1 where the draw is b + sign exp(g) with g straight in ln v between nodes, 0 where the
     *     curve itself is straight
     */
    CurveDraws(double[] nodesMmPerS, double[][] eps, double[] base, int[] sign, double[] startMm, double[] shift) {
        this.nodesMmPerS = nodesMmPerS;
        this.eps = eps;
        this.base = base;
        this.sign = sign;
        this.startMm = startMm;
        this.shift = shift;
        x = new double[nodesMmPerS.length];
        for (int k = 0; k < x.length; k++) {
            x[k] = Math.log(nodesMmPerS[k]);
        }
    }

    /** Returns how many numbers draws come to. */
    static int numbers(int nodes, int count) {
        return count * (nodes + BESIDE_EPS);
    }

    /** Returns all numbers of the draws but the nodes, one after the other. */
    double[] numbers() {
        int each = nodes() + BESIDE_EPS;
        double[] all = new double[numbers(nodes(), count())];
        for (int i = 0; i < count(); i++) {
            int at = i * each;
            System.arraycopy(eps[i], 0, all, at, nodes());
            at += nodes();
            all[at] = base[i];
            all[at + 1] = sign[i];
            all[at + 2] = startMm[i];
            all[at + 3] = shift[i];
        }
        return all;
    }

    /**
     * Returns draws from their {@link #numbers}.
     *
     * @throws IllegalArgumentException if the numbers are not those of so many draws on these nodes
     */
    static CurveDraws of(double[] nodesMmPerS, int count, double[] numbers) {
        int nodes = nodesMmPerS.length;
        int each = nodes + BESIDE_EPS;
        if (numbers.length != numbers(nodes, count)) {
            throw new IllegalArgumentException(numbers.length + " numbers are not those of " + count + " draws");
        }
        double[][] eps = new double[count][];
        double[] base = new double[count];
        int[] sign = new int[count];
        double[] start = new double[count];
        double[] shift = new double[count];
        for (int i = 0; i < count; i++) {
            int at = i * each + nodes;
            eps[i] = Arrays.copyOfRange(numbers, i * each, at);
            base[i] = numbers[at];
            sign[i] = (int) numbers[at + 1];
            start[i] = numbers[at + 2];
            shift[i] = numbers[at + 3];
        }
        return new CurveDraws(nodesMmPerS, eps, base, sign, start, shift);
    }

    /** Returns the number of draws. */
    public int count() {
        return eps.length;
    }

    /** Returns the number of nodes. */
    public int nodes() {
        return nodesMmPerS.length;
    }

    /** Returns the speeds of the nodes in mm/s, ascending; a copy. */
    public double[] nodesMmPerS() {
        return nodesMmPerS.clone();
    }

    /** Returns the speed of node {@code k} in mm/s. */
    public double nodeMmPerS(int k) {
        return nodesMmPerS[k];
    }

    /** Returns the relative error (ratio) of draw {@code i} at node {@code k}. */
    public double at(int i, int k) {
        return eps[i][k];
    }

    /** Returns the mean of the draws at each node, a ratio. */
    public double[] meanEps() {
        double[] mean = new double[nodes()];
        for (double[] draw : eps) {
            for (int k = 0; k < mean.length; k++) {
                mean[k] += draw[k] / eps.length;
            }
        }
        return mean;
    }

    /** Returns the part of every error of draw {@code i} (ratio) that is the reference's. */
    public double referenceShift(int i) {
        return shift[i];
    }

    /** Returns the start loss of draw {@code i} in mm per start; 0 where the trial cannot tell it. */
    public double startMm(int i) {
        return startMm[i];
    }

    /**
     * Returns the draws of a sensor whose lengths are divided by 1 + scale: (1 + eps)/(1 + scale) - 1.
     *
     * @param scale scale error taken out (ratio), greater than -1
     */
    CurveDraws corrected(double scale) {
        double[][] changed = new double[eps.length][];
        double[] changedBase = new double[eps.length];
        for (int i = 0; i < eps.length; i++) {
            changed[i] = new double[eps[i].length];
            for (int k = 0; k < eps[i].length; k++) {
                changed[i][k] = (eps[i][k] - scale) / (1 + scale);
            }
            changedBase[i] = (base[i] - scale) / (1 + scale);
        }
        return new CurveDraws(nodesMmPerS, changed, changedBase, sign, startMm, shift);
    }

    /**
     * Returns the relative error of a draw at a speed: straight in ln v between nodes, held at the outer nodes.
     *
     * @param i draw
     * @param speedMmPerS speed, greater than 0
     */
    public double atSpeed(int i, double speedMmPerS) {
        double xi = Math.log(speedMmPerS);
        int last = x.length - 1;
        if (xi <= x[0]) {
            return eps[i][0];
        }
        if (xi >= x[last]) {
            return eps[i][last];
        }
        int k = 0;
        int up = last;
        while (up - k > 1) {
            int middle = (k + up) >>> 1;
            if (x[middle] <= xi) {
                k = middle;
            } else {
                up = middle;
            }
        }
        double share = (xi - x[k]) / (x[k + 1] - x[k]);
        return eps[i][k] * (1 - share) + eps[i][k + 1] * share;
    }

    /**
     * Returns for each draw the error of a motion in mm: start loss times starts plus the sum of error times distance over
     * the nodes. Travel slower than the slowest node counts with the error there, faster travel with the error
     * at the fastest; {@link KnotDistances#belowMm} and {@link KnotDistances#aboveMm} of
     * {@link TravelSpectrum#onKnots} say how much that is.
     *
     * @param motion distance against speed
     * @param starts number of starts from standstill in it, at least 0
     */
    public double[] errorsMm(TravelSpectrum motion, int starts) {
        if (starts < 0) {
            throw new IllegalArgumentException("starts must be at least 0: " + starts);
        }
        KnotDistances on = motion.onKnots(nodesMmPerS);
        double[] distances = on.distancesMm();
        distances[0] += on.belowMm();
        double[] out = new double[eps.length];
        for (int i = 0; i < out.length; i++) {
            double sum = starts * startMm[i];
            double[] e = eps[i];
            for (int k = 0; k < distances.length; k++) {
                sum += e[k] * distances[k];
            }
            out[i] = sum;
        }
        return out;
    }

    /**
     * Returns the slowest speed from which on the size of the draw's error stays inside a limit, up to the fastest
     * node: 0 when it does so from the slowest node, infinity when it does not at the fastest node. Where
     * the draw is b + s exp(g), the crossing lies where g meets the limit on its straight line in ln v.
     *
     * @param i draw
     * @param limit largest permitted size of the relative error (ratio), greater than 0
     */
    public double floorMmPerS(int i, double limit) {
        double[] e = eps[i];
        int k = e.length - 1;
        if (Math.abs(e[k]) > limit) {
            return Double.POSITIVE_INFINITY;
        }
        while (k > 0 && Math.abs(e[k - 1]) <= limit) {
            k--;
        }
        if (k == 0) {
            return 0;
        }
        return crossing(i, k - 1, e[k - 1] > 0 ? limit : -limit);
    }

    /** Returns the speed between nodes k and k + 1 at which the draw takes a value that lies between theirs. */
    private double crossing(int i, int k, double value) {
        double slow = eps[i][k];
        double fast = eps[i][k + 1];
        double share = (slow - value) / (slow - fast);
        if (sign[i] != 0) {
            double slowDeparture = sign[i] * (slow - base[i]);
            double fastDeparture = sign[i] * (fast - base[i]);
            double wanted = sign[i] * (value - base[i]);
            if (fastDeparture > 0 && wanted > 0 && slowDeparture > fastDeparture) {
                share = Math.log(slowDeparture / wanted) / Math.log(slowDeparture / fastDeparture);
            }
        }
        return Math.exp(x[k] + share * (x[k + 1] - x[k]));
    }
}
