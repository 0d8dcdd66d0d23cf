package slowproof.trial.forecast;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import slowproof.metrology.sampling.LongLanes;
import slowproof.metrology.sampling.NormalTable;
import slowproof.metrology.uncertainty.StreamedSource;

/**
 * Draws pieces: for each a draw of the curve, the reference's error, what else is shared, every start (more than four in
 * one draw of the same variance), the travel, two readings and the moment of the cut. The shared parts are drawn
 * anew for each piece too, because a forecast of the next piece does not know them.
 *
 * <p>A few hundred pieces at a time, source by source: the loops are short and alike, and nothing is allocated for them.
 */
final class PieceKernel implements StreamedSource {
    private static final int STARTS_ONE_BY_ONE = 4;
    private static final double PER_STEP = 0x1.0p-32;
    private static final double PER_PLACE = 0x1.0p-53;
    private static final int SOME = LongLanes.LANES;

    private final Kind[] kinds;

    PieceKernel(List<PieceModel> pieces) {
        kinds = pieces.stream().map(Kind::new).toArray(Kind[]::new);
        double sum = 0;
        for (Kind kind : kinds) {
            sum += kind.piece.weight();
            kind.upTo = sum;
        }
    }

    @Override
    public Filler filler(UniformRandomProvider random) {
        Work work = new Work(random, kinds.length);
        return (values, companions) -> {
            for (int from = 0; from < values.length; from += SOME) {
                draw(work);
                System.arraycopy(work.deviation, 0, values, from, SOME);
                System.arraycopy(work.error, 0, companions, from, SOME);
            }
        };
    }

    private void draw(Work work) {
        if (kinds.length == 1) {
            work.draw(kinds[0], 0, SOME);
            return;
        }
        // how many of each kind fall to these places; then they stand in the order of the kinds
        work.lanes.next(work.bits);
        double all = kinds[kinds.length - 1].upTo;
        Arrays.fill(work.count, 0);
        for (long bits : work.bits) {
            double place = all * PER_PLACE * (bits >>> 11);
            int k = 0;
            while (k < kinds.length - 1 && place >= kinds[k].upTo) {
                k++;
            }
            work.count[k]++;
        }
        int from = 0;
        for (int k = 0; k < kinds.length; k++) {
            work.draw(kinds[k], from, from + work.count[k]);
            from += work.count[k];
        }
    }

    /** What the draws of one kind of piece need, side by side in memory. */
    private static final class Kind {
        final PieceModel piece;
        /** Curve and factor of the scatter by turns. */
        final double[] shared;

        final int draws;
        final int starts;
        final double start;
        double upTo;

        Kind(PieceModel piece) {
            this.piece = piece;
            draws = piece.draws();
            shared = new double[2 * draws];
            for (int i = 0; i < draws; i++) {
                shared[2 * i] = piece.curveMm()[i];
                shared[2 * i + 1] = piece.scatterFactor()[i];
            }
            boolean oneByOne = piece.starts() <= STARTS_ONE_BY_ONE;
            starts = piece.startMm() == 0 ? 0 : oneByOne ? piece.starts() : 1;
            start = oneByOne ? piece.startMm() : piece.startMm() * Math.sqrt(piece.starts());
        }
    }

    /** Work space of one thread. */
    private static final class Work {
        final UniformRandomProvider random;
        final LongLanes lanes;
        final int[] count;
        final double[] error = new double[SOME];
        final double[] deviation = new double[SOME];
        final long[] bits = new long[SOME];
        private final long[] more = new long[SOME];

        Work(UniformRandomProvider random, int kinds) {
            count = new int[kinds];
            this.random = random;
            lanes = new LongLanes(random);
        }

        void draw(Kind kind, int from, int to) {
            PieceModel piece = kind.piece;
            Arrays.fill(error, from, to, 0);
            add(error, piece.travelMm(), from, to);
            for (int s = 0; s < kind.starts; s++) {
                add(error, kind.start, from, to);
            }
            curveAndReadings(kind, piece.stepMm() * PER_STEP, from, to);
            add(error, piece.referenceUMm(), from, to);
            add(error, piece.fixedUMm(), from, to);
            if (!piece.cutsOnSensor()) {
                System.arraycopy(error, from, deviation, from, to - from);
                return;
            }
            double perLength = 1 / piece.lengthMm();
            double bias = piece.triggerBiasMm();
            for (int n = from; n < to; n++) {
                deviation[n] = bias - error[n] / (1 + error[n] * perLength);
            }
            add(deviation, piece.triggerMm(), from, to);
        }

        private void add(double[] sum, double deviation, int from, int to) {
            if (deviation > 0) {
                lanes.next(bits);
                NormalTable.add(sum, from, to, deviation, bits, random);
            }
        }

        /** The draw of the curve with its factor on the scatter so far, and two readings. */
        private void curveAndReadings(Kind kind, double step, int from, int to) {
            lanes.next(bits);
            lanes.next(more);
            double[] shared = kind.shared;
            int draws = kind.draws;
            for (int n = from; n < to; n++) {
                long other = more[n];
                // upper half: which draw; the lower half and the other value are the readings
                int at = 2 * (int) (((other >>> 32) * draws) >>> 32);
                double readings = step * ((bits[n] >>> 32) - (double) (other & 0xffffffffL));
                error[n] = shared[at] + shared[at + 1] * error[n] + readings;
            }
        }
    }
}
