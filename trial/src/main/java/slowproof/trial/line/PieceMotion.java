package slowproof.trial.line;

import java.util.Arrays;
import slowproof.trial.spectrum.TravelSpectrum;

/**
 * What the web does while one piece passes, from cut to cut. Travel forward and backward stand apart, because an error
 * made backwards counts against the one made forwards. Immutable.
 */
public final class PieceMotion {
    // speeds of neighbouring samples that differ by less than this share are taken for a hold
    private static final double STEADY = 1e-3;

    private final double[] timeS;
    private final double[] speedMmPerS;
    private final TravelSpectrum forward;
    private final TravelSpectrum backward;
    private final int startsForward;
    private final int startsBackward;
    private final double standstillS;

    private PieceMotion(double[] timeS, double[] speedMmPerS) {
        this.timeS = timeS;
        this.speedMmPerS = speedMmPerS;
        double[] ahead = new double[timeS.length];
        double[] back = new double[timeS.length];
        int starts = 0;
        int returns = 0;
        double rest = 0;
        for (int i = 0; i < timeS.length; i++) {
            ahead[i] = Math.max(0, speedMmPerS[i]);
            back[i] = Math.max(0, -speedMmPerS[i]);
            if (i > 0 && speedMmPerS[i - 1] == 0) {
                starts += speedMmPerS[i] > 0 ? 1 : 0;
                returns += speedMmPerS[i] < 0 ? 1 : 0;
                rest += speedMmPerS[i] == 0 ? timeS[i] - timeS[i - 1] : 0;
            }
        }
        forward = TravelSpectrum.ofProfile(timeS, ahead);
        backward = TravelSpectrum.ofProfile(timeS, back);
        startsForward = starts;
        startsBackward = returns;
        standstillS = rest;
    }

    /**
     * Returns the motion of samples; steps of no duration are left out, and where the direction turns between two
     * samples the moment of rest becomes a sample.
     */
    static PieceMotion of(double[] timeS, double[] speedMmPerS) {
        double[] t = new double[2 * timeS.length];
        double[] v = new double[t.length];
        int n = 0;
        for (int i = 0; i < timeS.length; i++) {
            if (n > 0 && !(timeS[i] > t[n - 1])) {
                v[n - 1] = speedMmPerS[i];
                continue;
            }
            if (n > 0 && v[n - 1] * speedMmPerS[i] < 0) {
                double turn = t[n - 1] + (timeS[i] - t[n - 1]) * v[n - 1] / (v[n - 1] - speedMmPerS[i]);
                if (turn > t[n - 1] && turn < timeS[i]) {
                    t[n] = turn;
                    v[n++] = 0;
                }
            }
            t[n] = timeS[i];
            v[n++] = speedMmPerS[i];
        }
        return new PieceMotion(Arrays.copyOf(t, n), Arrays.copyOf(v, n));
    }

    /** Returns the travel forward. */
    public TravelSpectrum forward() {
        return forward;
    }

    /** Returns the travel backward. */
    public TravelSpectrum backward() {
        return backward;
    }

    /** Returns the length of the piece: the net travel in mm. */
    public double lengthMm() {
        return forward.totalMm() - backward.totalMm();
    }

    /** Returns the whole travel in mm, backward counted positive. */
    public double pathMm() {
        return forward.totalMm() + backward.totalMm();
    }

    /** Returns the number of starts from rest, reversals included. */
    public int starts() {
        return startsForward + startsBackward;
    }

    /** Returns the number of starts forward. */
    public int startsForward() {
        return startsForward;
    }

    /** Returns the number of starts backward. */
    public int startsBackward() {
        return startsBackward;
    }

    /** Returns the time at rest in s. */
    public double standstillS() {
        return standstillS;
    }

    /** Returns the speed at the cut that begins the piece, in mm/s. */
    public double firstSpeedMmPerS() {
        return speedMmPerS[0];
    }

    /** Returns the speed at the cut that ends the piece, in mm/s. */
    public double lastSpeedMmPerS() {
        return speedMmPerS[speedMmPerS.length - 1];
    }

    /** Returns the travel slower than a speed in mm, both directions. */
    public double belowMm(double speedMmPerS) {
        return forward.distanceBelowMm(speedMmPerS) + backward.distanceBelowMm(speedMmPerS);
    }

    /** Returns the travel faster than a speed in mm, both directions; travel at the speed itself is not counted. */
    public double aboveMm(double speedMmPerS) {
        double justAbove = speedMmPerS * (1 + 1e-9);
        return forward.distanceFromMm(justAbove) + backward.distanceFromMm(justAbove);
    }

    /** Returns the travel held steadily at speeds slower than one, in mm: creep, as against the slow ends of ramps. */
    public double steadyBelowMm(double limitMmPerS) {
        double sum = 0;
        for (int i = 1; i < timeS.length; i++) {
            double a = Math.abs(speedMmPerS[i - 1]);
            double b = Math.abs(speedMmPerS[i]);
            if (Math.max(a, b) < limitMmPerS && Math.abs(a - b) <= STEADY * Math.max(a, b)) {
                sum += 0.5 * (a + b) * (timeS[i] - timeS[i - 1]);
            }
        }
        return sum;
    }

    /** Returns the same travel with all speeds multiplied by a factor above zero: distances stay, times shrink. */
    public PieceMotion faster(double factor) {
        double[] t = timeS.clone();
        double[] v = speedMmPerS.clone();
        for (int i = 0; i < t.length; i++) {
            t[i] = t[0] + (timeS[i] - timeS[0]) / factor;
            v[i] *= factor;
        }
        return new PieceMotion(t, v);
    }

    /** Returns the number of samples. */
    public int size() {
        return timeS.length;
    }

    /** Returns the time of sample {@code i} in s. */
    public double timeS(int i) {
        return timeS[i];
    }

    /** Returns the signed speed at sample {@code i} in mm/s. */
    public double speedMmPerS(int i) {
        return speedMmPerS[i];
    }
}
