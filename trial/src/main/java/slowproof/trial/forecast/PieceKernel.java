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
    /** Arrays of bits that are drawn at once. */
    private static final int BATCH = 2;

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
        if (kinds.length > 1) {
            shareOut(work);
        }
        work.draw(kinds);
    }

    /** Draws how many places of each kind there are; then they stand in the order of the kinds. */
    private void shareOut(Work work) {
        long[] which = work.bits();
        double all = kinds[kinds.length - 1].upTo;
        Arrays.fill(work.end, 0);
        for (long bits : which) {
            double place = all * PER_PLACE * (bits >>> 11);
            int k = 0;
            while (k < kinds.length - 1 && place >= kinds[k].upTo) {
                k++;
            }
            work.end[k]++;
        }
        for (int k = 1; k < kinds.length; k++) {
            work.end[k] += work.end[k - 1];
        }
    }

    /** Standard deviation of a source, as a kind of piece has it; zero where it has none. */
    private interface Deviation {
        double of(Kind kind);
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
        private final int[] at = new int[SOME];
        private final double[] readings = new double[SOME];
        private final long[][] drawn = new long[BATCH][SOME];
        private int used = BATCH;
        /** Where the places of each kind end; those of the first begin at zero. */
        final int[] end;

        final double[] error = new double[SOME];
        final double[] deviation = new double[SOME];

        Work(UniformRandomProvider random, int kinds) {
            end = new int[kinds];
            end[kinds - 1] = SOME;
            this.random = random;
            lanes = new LongLanes(random);
        }

        /** Returns fresh random bits, one long for every piece; good until bits are asked for again. */
        long[] bits() {
            return drawn[fresh(1)];
        }

        /** Returns the first of so many arrays of fresh bits that follow each other. */
        private int fresh(int together) {
            if (used + together > BATCH) {
                lanes.next(drawn[0], drawn[1]);
                used = 0;
            }
            used += together;
            return used - together;
        }

        /** Draws every source once for all kinds together: their places lie side by side and share no bits. */
        void draw(Kind[] kinds) {
            Arrays.fill(error, 0);
            add(error, kinds, kind -> kind.piece.travelMm());
            int most = 0;
            for (Kind kind : kinds) {
                most = Math.max(most, kind.starts);
            }
            for (int s = 0; s < most; s++) {
                int start = s;
                add(error, kinds, kind -> start < kind.starts ? kind.start : 0);
            }
            curveAndReadings(kinds);
            add(error, kinds, kind -> kind.piece.referenceUMm());
            add(error, kinds, kind -> kind.piece.fixedUMm());
            for (int k = 0; k < kinds.length; k++) {
                cut(kinds[k].piece, begin(k), end[k]);
            }
            add(deviation, kinds, kind -> kind.piece.cutsOnSensor() ? kind.piece.triggerMm() : 0);
        }

        private int begin(int k) {
            return k == 0 ? 0 : end[k - 1];
        }

        private void cut(PieceModel piece, int from, int to) {
            if (!piece.cutsOnSensor()) {
                System.arraycopy(error, from, deviation, from, to - from);
                return;
            }
            double perLength = 1 / piece.lengthMm();
            double bias = piece.triggerBiasMm();
            for (int n = from; n < to; n++) {
                deviation[n] = bias - error[n] / (1 + error[n] * perLength);
            }
        }

        private void add(double[] sum, Kind[] kinds, Deviation deviation) {
            long[] bits = null;
            for (int k = 0; k < kinds.length; k++) {
                double one = deviation.of(kinds[k]);
                if (one > 0 && begin(k) < end[k]) {
                    bits = bits == null ? bits() : bits;
                    NormalTable.add(sum, begin(k), end[k], one, bits, random);
                }
            }
        }

        /** The draw of the curve with its factor on the scatter so far, and two readings. */
        private void curveAndReadings(Kind[] kinds) {
            int fresh = fresh(2);
            long[] first = drawn[fresh];
            long[] second = drawn[fresh + 1];
            for (int k = 0; k < kinds.length; k++) {
                Kind kind = kinds[k];
                places(second, kind.draws, at, begin(k), end[k]);
                readings(first, second, kind.piece.stepMm() * PER_STEP, readings, begin(k), end[k]);
                add(kind.shared, at, readings, error, begin(k), end[k]);
            }
        }

        // short loops one by one: several pieces are taken at once where nothing is looked up

        /** Which draw, from the upper halves. */
        private static void places(long[] bits, int draws, int[] at, int from, int to) {
            for (int n = from; n < to; n++) {
                at[n] = (int) (((bits[n] >>> 32) * draws) >>> 32);
            }
        }

        /** Difference of two readings, from the upper halves of some and the lower halves of the others. */
        private static void readings(long[] some, long[] others, double step, double[] readings, int from, int to) {
            for (int n = from; n < to; n++) {
                readings[n] = step * ((some[n] >>> 32) - (others[n] & 0xffffffffL));
            }
        }

        private static void add(double[] shared, int[] at, double[] readings, double[] error, int from, int to) {
            for (int n = from; n < to; n++) {
                int place = 2 * at[n];
                error[n] = shared[place] + shared[place + 1] * error[n] + readings[n];
            }
        }
    }
}
