package slowproof.trial.recording;

import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Check;
import slowproof.trial.counts.SpeedEstimate;

/**
 * Judges the indicated speed on plateaus: mean against mean, and the ripple of averages over a stated time, each
 * average by the better of gate and edges.
 */
public final class SpeedJudge {
    /** The usual averaging time of a speed display. */
    public static final double USUAL_AVERAGING_S = 0.1;

    /** Edges of the same kind are a whole period apart: four counts when all edges of two channels are counted. */
    private static final int COUNTS_PER_PERIOD = 4;

    private static final int FEWEST_AVERAGES = 3;

    /** Correlation from which on the sensor follows the drive without delay, so that averages can be compared one by one. */
    private static final double FOLLOWS = 0.7;

    private static final int SAMPLE = 1000;
    private static final double OFF_GRID = 0.02;

    private final Column time;
    private final Column indication;
    private final Column reference;
    private final double countMm;
    private final double intervalS;
    private final double referenceNoiseMm;
    private final Recording recording;

    private SpeedJudge(Recording recording, double referenceNoiseMm) {
        this.recording = recording;
        this.time = recording.timeS();
        this.indication = recording.indicationMm();
        this.reference = recording.referenceMm();
        this.countMm = recording.indicationStepMm();
        this.intervalS = recording.intervalS();
        this.referenceNoiseMm = referenceNoiseMm;
    }

    /**
     * Judges the plateau of a pass.
     *
     * @param recording a recording with indication and reference
     * @param search the search that found the pass
     * @param pass the pass
     * @param averagingS averaging time of the ripple in s, above zero
     * @return the speeds, or null when the plateau is shorter than two averages or has no rows, or when the reference is written too
     *     seldom or in too large steps to move in most averages
     */
    public static @Nullable PlateauSpeed judge(
            Recording recording, PassSearch search, FoundPass pass, double averagingS) {
        Check.positive(averagingS, "averaging time", "s");
        // rounding to steps, rectangular
        double rounding = gridMm(recording.referenceMm()) / Math.sqrt(12);
        return new SpeedJudge(recording, Math.max(search.restNoiseMm(), rounding)).judge(pass, averagingS);
    }

    /** Returns the step of a column whose moves are all whole numbers of it; zero when there is none, or it is too fine to be seen. */
    private static double gridMm(Column column) {
        double step = column.smallestStep();
        int stride = Select.stride(column.size() - 1, SAMPLE);
        for (int i = 1; step > 0 && i < column.size(); i += stride) {
            double steps = (column.get(i) - column.get(i - 1)) / step;
            if (Math.abs(steps - Math.rint(steps)) > OFF_GRID) {
                return 0;
            }
        }
        return step;
    }

    private @Nullable PlateauSpeed judge(FoundPass pass, double averagingS) {
        int from = rowAt(pass, pass.plateauStartS());
        int to = rowAt(pass, pass.plateauEndS());
        double duration = time.get(to) - time.get(from);
        if (!(duration >= 2 * averagingS) || countMm == 0) {
            return null;
        }
        SpeedEstimate mean = estimate(from, to);
        if (mean == null) {
            return null;
        }
        double referenceMean = (reference.get(to) - reference.get(from)) / duration;
        Spread indicated = new Spread();
        Spread referred = new Spread();
        Spread apart = new Spread();
        double averaged = 0;
        double counting = 0;
        int[] stretches = IntStream.concat(recording.breakRows(from, to, place -> true), IntStream.of(to + 1))
                .toArray();
        int still = 0;
        int start = from;
        for (int behind : stretches) {
            Ascending clock = new Ascending(time, behind);
            int end = clock.firstAfter(start, averagingS - 0.5 * intervalS);
            while (end < behind) {
                SpeedEstimate one = estimate(start, end);
                if (one != null) {
                    indicated.add(one.speedMmPerS());
                    double moved = reference.get(end) - reference.get(start);
                    double took = time.get(end) - time.get(start);
                    still += moved == 0 ? 1 : 0;
                    averaged += took;
                    referred.add(moved / took);
                    apart.add(one.speedMmPerS() - moved / took);
                    counting += one.standardUncertaintyMmPerS() * one.standardUncertaintyMmPerS();
                }
                start = end;
                end = clock.firstAfter(start, averagingS - 0.5 * intervalS);
            }
            start = behind;
        }
        int averages = indicated.count;
        if (still > PassFinder.SELDOM * averages) {
            return null;
        }
        // rows further apart than the averaging time make longer averages
        double averageS = Math.abs(averaged / averages - averagingS) < intervalS / 2 ? averagingS : averaged / averages;
        double ripple = Double.NaN;
        double share = Double.NaN;
        if (averages >= FEWEST_AVERAGES) {
            // what the reference's own noise adds to its averages is no ripple of the drive
            double noise = 2 * referenceNoiseMm * referenceNoiseMm / (averageS * averageS);
            double own = follows(indicated, referred, apart)
                    ? apart.variance() - noise
                    : indicated.variance() - Math.max(referred.variance() - noise, 0);
            double variance = Math.max(own, 0);
            ripple = Math.sqrt(variance);
            share = variance > 0 ? Math.min(counting / averages / variance, 1) : 1;
        }
        return new PlateauSpeed(
                referenceMean,
                mean.speedMmPerS(),
                Math.hypot(mean.standardUncertaintyMmPerS(), Math.sqrt(2) * referenceNoiseMm / duration),
                ripple,
                share,
                averageS,
                averages);
    }

    /** What a drive does shows in both at once, unless the sensor lags; then only the variances can be compared. */
    private static boolean follows(Spread indicated, Spread referred, Spread apart) {
        double covariance = (indicated.variance() + referred.variance() - apart.variance()) / 2;
        return covariance > FOLLOWS * Math.sqrt(indicated.variance() * referred.variance());
    }

    /** Returns the better estimate between two rows, or null when the rows stand still in time. */
    private @Nullable SpeedEstimate estimate(int from, int to) {
        double duration = time.get(to) - time.get(from);
        if (!(duration > 0)) {
            return null;
        }
        SpeedEstimate gate =
                SpeedEstimate.gate((indication.get(to) - indication.get(from)) / countMm, countMm, duration);
        int first = from + 1;
        while (first <= to && indication.get(first) == indication.get(first - 1)) {
            first++;
        }
        int last = to;
        while (last > first && !sameKind(first, last)) {
            last--;
        }
        if (last <= first) {
            return gate;
        }
        double span = middle(last) - middle(first);
        return gate.or(SpeedEstimate.edges(
                (indication.get(last) - indication.get(first)) / countMm, countMm, span, intervalS));
    }

    /** A transition a whole number of periods after the first one, when single counts can be told apart at all. */
    private boolean sameKind(int first, int row) {
        double step = Math.abs(indication.get(row) - indication.get(row - 1));
        double counts = Math.abs(indication.get(row) - indication.get(first)) / countMm;
        return step > 0
                && step < 1.5 * countMm
                && counts > 0.5
                && Math.abs(counts - COUNTS_PER_PERIOD * Math.rint(counts / COUNTS_PER_PERIOD)) < 0.25;
    }

    private double middle(int row) {
        return (time.get(row) + time.get(row - 1)) / 2;
    }

    private int rowAt(FoundPass pass, double timeS) {
        int row = pass.before().lastRow();
        return time.get(row) < timeS ? new Ascending(time, pass.after().firstRow()).firstAt(row, timeS) : row;
    }

    /** Running variance by the way of Welford. */
    private static final class Spread {
        private int count;
        private double mean;
        private double squares;

        void add(double value) {
            count++;
            double step = value - mean;
            mean += step / count;
            squares += step * (value - mean);
        }

        double variance() {
            return squares / (count - 1);
        }
    }
}
