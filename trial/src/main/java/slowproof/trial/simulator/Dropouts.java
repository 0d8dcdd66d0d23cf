package slowproof.trial.simulator;

import java.util.Objects;

/**
 * How often a sensor has no valid signal on a surface while it moves.
 *
 * @param share expected share of time without a valid signal against speed, ratio, 0 up to but not including 1
 * @param passSpread relative scatter of the share from pass to pass (standard deviation of its logarithm), at least 0
 * @param burstS mean duration of one dropout, s, positive
 * @param errorPerShare relative error added per unit of share above the expected one; -1 loses exactly the travel
 *     of the additional dropouts, 0 leaves the error independent of them
 */
public record Dropouts(SlowRise share, double passSpread, double burstS, double errorPerShare) {
    /** A sensor that never loses its signal. */
    public static final Dropouts NONE = new Dropouts(SlowRise.constant(0), 0, 0.01, 0);

    /** Checks the parts. */
    public Dropouts {
        Objects.requireNonNull(share, "share");
        Check.share(share.fastValue(), "dropout share at high speed");
        Check.share(share.slowValue(), "dropout share at low speed");
        Check.notNegative(passSpread, "scatter of the dropout share");
        Check.positive(burstS, "burst duration");
        Check.finite(errorPerShare, "error per dropout share");
    }
}
