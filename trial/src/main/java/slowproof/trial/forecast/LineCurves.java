package slowproof.trial.forecast;

import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.jspecify.annotations.Nullable;
import slowproof.trial.curve.CurveDraws;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.line.PieceMotion;

/**
 * The error curves that a motion meets: one for both directions, or one each where forward and return passes of the trial
 * differ. Then draw i of the one goes with a draw of the other taken at random, each once: what passes in one
 * direction say is independent of what those in the other say. The scale of the reference is common to both and is
 * kept apart; its fixed part goes with the start losses and counts as independent, which is the safe side where both
 * directions start.
 */
public final class LineCurves {
    private static final long SHUFFLE_SEED = 0x2d1a5b7c90e3L;

    final CurveDraws forward;
    final CurveDraws backward;
    /** Least and largest mean of the draws at a node, of either direction; ratios. Found once: many lines are tried on one trial. */
    final double leastMeanEps;

    final double largestMeanEps;
    private final int[] partner;

    private LineCurves(CurveDraws forward, CurveDraws backward, int[] partner) {
        this.forward = forward;
        this.backward = backward;
        this.partner = partner;
        double least = Double.POSITIVE_INFINITY;
        double largest = Double.NEGATIVE_INFINITY;
        for (CurveDraws draws : forward == backward ? List.of(forward) : List.of(forward, backward)) {
            for (double mean : draws.meanEps()) {
                least = Math.min(least, mean);
                largest = Math.max(largest, mean);
            }
        }
        leastMeanEps = least;
        largestMeanEps = largest;
    }

    /** Returns the curves of a trial, or null when nothing was repeated. */
    public static @Nullable LineCurves of(LineEvidence evidence) {
        CurveDraws ahead = evidence.draws();
        if (ahead == null) {
            return null;
        }
        LineEvidence.Backward back = evidence.backward();
        return back == null ? of(ahead) : of(ahead, back.draws());
    }

    static LineCurves of(CurveDraws both) {
        return new LineCurves(both, both, inOrder(both.count()));
    }

    static LineCurves of(CurveDraws forward, CurveDraws backward) {
        UniformRandomProvider random = RandomSource.XO_SHI_RO_256_PP.create(SHUFFLE_SEED);
        int[] all = inOrder(backward.count());
        for (int i = all.length - 1; i > 0; i--) {
            int j = random.nextInt(i + 1);
            int kept = all[i];
            all[i] = all[j];
            all[j] = kept;
        }
        int[] partner = new int[forward.count()];
        for (int i = 0; i < partner.length; i++) {
            partner[i] = all[i % all.length];
        }
        return new LineCurves(forward, backward, partner);
    }

    private static int[] inOrder(int count) {
        int[] all = new int[count];
        for (int i = 0; i < count; i++) {
            all[i] = i;
        }
        return all;
    }

    int count() {
        return forward.count();
    }

    double referenceShift(int i) {
        return forward.referenceShift(i);
    }

    /** Returns the error of a motion for each draw in mm, start losses included, without the reference's scale. */
    double[] errorsMm(PieceMotion motion) {
        double ahead = motion.forward().totalMm();
        double back = motion.backward().totalMm();
        double[] errors = forward.errorsMm(motion.forward(), motion.startsForward());
        double[] against = back > 0 ? backward.errorsMm(motion.backward(), motion.startsBackward()) : new double[0];
        for (int i = 0; i < errors.length; i++) {
            errors[i] -= forward.referenceShift(i) * ahead;
            if (back > 0) {
                int j = partner[i];
                // over-reading a travel backwards shortens the piece
                errors[i] -= against[j] - backward.referenceShift(j) * back;
            }
        }
        return errors;
    }
}
