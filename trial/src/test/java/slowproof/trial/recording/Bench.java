package slowproof.trial.recording;

import java.util.SplittableRandom;

/**
 * A small bench for tests: builds a motion of ramps and holds, sample by sample, and what sensor and reference
 * show of it. Positions follow from the closed form of each piece.
 */
final class Bench {
    private final Column.Builder time = new Column.Builder(1000);
    private final Column.Builder truth = new Column.Builder(1000);
    private final double intervalS;
    private double now;
    private double sampled;
    private double place;

    Bench(double intervalS) {
        this.intervalS = intervalS;
    }

    Bench(double intervalS, double startMm) {
        this(intervalS);
        place = startMm;
    }

    private interface Way {
        double at(double t);
    }

    private Bench go(double duration, Way way) {
        double start = now;
        double from = place;
        now += duration;
        while (sampled < now) {
            time.add(sampled);
            truth.add(from + way.at(sampled - start));
            sampled += intervalS;
        }
        place = from + way.at(duration);
        return this;
    }

    Bench rest(double seconds) {
        return go(seconds, t -> 0);
    }

    /** Moves at one speed with the given ramps; {@code travel} is signed. */
    Bench move(double travel, double speed, double up, double down) {
        double sense = Math.signum(travel);
        double t1 = speed / up;
        double t3 = speed / down;
        double ramps = speed * (t1 + t3) / 2;
        double t2 = (Math.abs(travel) - ramps) / speed;
        if (t2 < 0) {
            throw new IllegalArgumentException("too short for a plateau");
        }
        go(t1, t -> sense * up * t * t / 2);
        go(t2, t -> sense * speed * t);
        return go(t3, t -> sense * (speed * t - down * t * t / 2));
    }

    Bench hold(double seconds, double speed) {
        return go(seconds, t -> speed * t);
    }

    Bench skip(double seconds) {
        sampled = now + seconds;
        now += seconds;
        return this;
    }

    /** Time and true position, and with them the logged columns that a reference with noise and a counting sensor give. */
    static final class Truth {
        private final double[] timeS;
        private final double[] positionMm;

        Truth(double[] timeS, double[] positionMm) {
            this.timeS = timeS;
            this.positionMm = positionMm;
        }

        double[] timeS() {
            return timeS;
        }

        double[] positionMm() {
            return positionMm;
        }

        double[] counts(double countMm, double scaleError) {
            double[] count = new double[timeS.length];
            for (int i = 0; i < timeS.length; i++) {
                count[i] = Math.floor(positionMm[i] * (1 + scaleError) / countMm);
            }
            return count;
        }

        LoggedColumns counted(double countMm, double scaleError, double noiseMm, long seed) {
            SplittableRandom random = new SplittableRandom(seed);
            double[] reference = new double[timeS.length];
            for (int i = 0; i < timeS.length; i++) {
                reference[i] = positionMm[i] + noiseMm * random.nextGaussian();
            }
            return logged(counts(countMm, scaleError), reference);
        }

        LoggedColumns logged(double[] count, double[] reference) {
            return new LoggedColumns(
                    "bench.csv",
                    RowLines.from(2),
                    Column.copyOf(timeS),
                    Column.copyOf(count),
                    null,
                    null,
                    null,
                    Column.copyOf(reference),
                    null);
        }
    }

    Truth done() {
        return new Truth(time.build().toArray(), truth.build().toArray());
    }
}
