package slowproof.trial.curve;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import slowproof.trial.curve.FloorEstimate.Status;
import slowproof.trial.simulator.Population;
import slowproof.trial.simulator.RandomStreams;

/**
 * Trials too thin for a curve: two to four speeds with one to five cycles, or five to nine speeds with one cycle each,
 * on random benches. The fastest speed is 1.05 to 4.7 times the true
 * floor, at most 400 mm/s; the others go down from it by a ratio of 1.5 to 2.5.
 */
final class ThinStudy {
    /** One trial: whether something was claimed, whether it was true, and the ratio of the bracket's ends. */
    record Outcome(Status status, boolean claims, boolean right, double ratio) {}

    final List<Outcome> outcomes;

    private ThinStudy(List<Outcome> outcomes) {
        this.outcomes = outcomes;
    }

    static ThinStudy run(long seed, int trials) {
        return new ThinStudy(IntStream.range(0, trials)
                .parallel()
                .mapToObj(k -> outcome(Population.draw(RandomStreams.of(seed).trial(k)), seed + 7919L * k))
                .toList());
    }

    private static Outcome outcome(Population.Sample sample, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        boolean manySpeeds = random.nextInt(4) == 0;
        int count = manySpeeds ? 5 + random.nextInt(5) : 2 + random.nextInt(3);
        int cycles = manySpeeds ? 1 : 1 + random.nextInt(5);
        double ratio = 1.5 + random.nextDouble();
        double speed = Math.min(400, sample.floorMmPerS() * Math.exp(0.05 + 1.5 * random.nextDouble()));
        List<Double> speeds = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            speeds.add(0, speed);
            speed /= ratio;
        }
        CurveResult result = CurveFit.of(
                SimulatedPasses.of(sample.plan(speeds, cycles), sample.streams()),
                new CurveSettings("surface", 0.05, 0, 2.5e-6, seed, 200));
        if (result.reason() != CurveReason.THIN_TRIAL) {
            throw new IllegalStateException("not thin: " + count + " speeds, " + cycles + " cycles");
        }
        FloorEstimate floor = result.floor(sample.limitRatio());
        double truth = sample.curve().floorMmPerS(sample.limitRatio(), speeds.get(0), speeds.get(count - 1));
        boolean right = switch (floor.status()) {
            case HOLDS_THROUGHOUT -> truth == 0;
            case DOES_NOT_HOLD -> truth == Double.POSITIVE_INFINITY;
            case HOLDS_IN_A_BAND -> truth == Double.POSITIVE_INFINITY;
            default -> (floor.low() == null || truth >= floor.low()) && (floor.high() == null || truth <= floor.high());
        };
        boolean claims = floor.status() != Status.UNDECIDED || floor.low() != null || floor.high() != null;
        double bracket = floor.status() == Status.BRACKET && floor.low() != null && floor.high() != null
                ? floor.high() / floor.low()
                : Double.NaN;
        return new Outcome(floor.status(), claims, right, bracket);
    }

    double shareClaiming() {
        return (double) outcomes.stream().filter(Outcome::claims).count() / outcomes.size();
    }

    double shareRight() {
        long claims = outcomes.stream().filter(Outcome::claims).count();
        return (double) outcomes.stream().filter(o -> o.claims() && o.right()).count() / claims;
    }

    double shareBracket() {
        return (double) outcomes.stream()
                        .filter(o -> o.status() == Status.BRACKET)
                        .count()
                / outcomes.size();
    }

    double shareBracketRight() {
        long brackets =
                outcomes.stream().filter(o -> o.status() == Status.BRACKET).count();
        return (double) outcomes.stream()
                        .filter(o -> o.status() == Status.BRACKET && o.right())
                        .count()
                / brackets;
    }

    double medianRatio() {
        double[] ratios = outcomes.stream()
                .mapToDouble(Outcome::ratio)
                .filter(Double::isFinite)
                .sorted()
                .toArray();
        return ratios[ratios.length / 2];
    }

    String figures() {
        return String.format(
                Locale.ROOT,
                "trials %d: claims %.3f, of them right %.3f; brackets %.3f, of them right %.3f, median ratio of the ends %.2f",
                outcomes.size(),
                shareClaiming(),
                shareRight(),
                shareBracket(),
                shareBracketRight(),
                medianRatio());
    }
}
