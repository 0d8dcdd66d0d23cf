package slowproof.trial.forecast;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import slowproof.trial.StatedAccuracy;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.line.Line.WeightedPiece;
import slowproof.trial.line.LineProfile;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceMotion;
import slowproof.trial.scatter.Estimate;

/**
 * What the line does that the trial did not try, and the bound of the error that can hide there. The value of a forecast
 * holds the curve constant beyond the tested speeds; the bound is a one-sided interval added linearly to the
 * interval of the mean, because such an error is the same for all pieces and does not average out.
 *
 * @param belowMm travel per piece slower than the slowest tested speed that the ramps of the trial did not cross
 * @param aboveMm travel per piece faster than the fastest tested speed
 * @param lossMm most that the sensor may under-read there, at least 0
 * @param gainMm most that it may over-read there, at least 0
 * @param gaps what is not covered, with the pass that would cover it
 */
public record Coverage(double belowMm, double aboveMm, double lossMm, double gainMm, List<Gap> gaps) {
    /** Share of the tolerance that the bound may take while the forecast still counts as covered. */
    public static final double SHARE_OF_TOLERANCE = 0.05;

    private static final double FACTOR = 2;

    /** What the trial lacks. */
    public enum Lack {
        /** Travel slower than tested: uncovered mm per piece, speed to add. */
        SLOWER,
        /** Travel faster than tested: mm per piece, speed to add. */
        FASTER,
        /** The bench's accelerations are not on record: mm per piece below the slowest speed. */
        NO_ACCELERATION,
        /** Ramps less than half as hard: acceleration of the line, slowest tried. */
        SOFTER_RAMPS,
        /** Ramps more than twice as hard: acceleration of the line, hardest tried. */
        HARDER_RAMPS,
        /** More starts to the metre than tried: starts per piece, stroke to add in mm. */
        MORE_STARTS,
        /** One stroke only: error per piece that the start loss may make in mm, stroke to add in mm. */
        START_LOSS_UNKNOWN;

        /** Returns the code as key of the message bundles, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * One gap.
     *
     * @param lack what is missing
     * @param amount how much, as its kind says
     * @param add speed, acceleration or stroke of the pass to add, as its kind says
     */
    public record Gap(Lack lack, double amount, double add) {}

    /** Copies the list. */
    public Coverage {
        gaps = List.copyOf(gaps);
    }

    /** Returns the travel per piece that the trial says nothing about, in mm. */
    public double uncoveredMm() {
        return belowMm + aboveMm;
    }

    /** Returns the larger of the two bounds in mm. */
    double largestMm() {
        return Math.max(lossMm, gainMm);
    }

    static Coverage of(
            LineEvidence evidence,
            LineCurves curves,
            List<WeightedPiece> pieces,
            @Nullable Double halfToleranceMm,
            List<Double> accelerations) {
        double largestError = Math.max(-curves.leastMeanEps, curves.largestMeanEps);
        boolean onlyLoses = curves.largestMeanEps <= 0;
        double below = 0;
        double above = 0;
        double loss = 0;
        double gain = 0;
        double startRange = 0;
        double mostStarts = 0;
        for (WeightedPiece weighted : pieces) {
            PieceMotion motion = weighted.motion();
            double w = weighted.weight();
            double slow = slower(evidence, motion);
            double fast = motion.aboveMm(evidence.fastestMmPerS(back(motion)));
            below += w * slow;
            above += w * fast;
            double[] start = startBound(evidence, motion);
            double[] measured = measuredRamps(evidence, motion, slow);
            StatedAccuracy stated = evidence.stated();
            boolean promised = stated != null && evidence.fastestMmPerS(back(motion)) >= stated.fromSpeedMmPerS();
            double fastLoss = promised && stated != null ? stated.relative() * fast : fast;
            double fastGain = promised && stated != null ? stated.relative() * fast : largestError * fast;
            double slowGain = onlyLoses ? 0 : largestError * slow;
            loss += w * ((measured == null ? slow : measured[0]) + fastLoss + start[0]);
            gain += w * ((measured == null ? slowGain : measured[1]) + fastGain + start[1]);
            startRange += w * Math.max(start[0], start[1]);
            mostStarts = Math.max(mostStarts, motion.starts() / motion.lengthMm());
        }
        List<Gap> gaps = new ArrayList<>();
        double allowed = halfToleranceMm == null ? 0 : SHARE_OF_TOLERANCE * halfToleranceMm;
        if (below > allowed) {
            gaps.add(
                    evidence.slowestAccelerationMmPerS2() == null
                            ? new Gap(Lack.NO_ACCELERATION, below, evidence.slowestMmPerS())
                            : new Gap(Lack.SLOWER, below, slowSpeed(evidence, pieces)));
        }
        if (above > allowed) {
            double peak = pieces.stream()
                    .mapToDouble(p -> Math.max(
                            p.motion().forward().peakMmPerS(),
                            p.motion().backward().peakMmPerS()))
                    .max()
                    .orElse(0);
            gaps.add(new Gap(Lack.FASTER, above, peak));
        }
        if (startRange > allowed && startRange > 0) {
            gaps.add(new Gap(Lack.START_LOSS_UNKNOWN, startRange, evidence.longestMm() / 5));
        }
        Double softest = evidence.slowestAccelerationMmPerS2();
        Double hardest = evidence.fastestAccelerationMmPerS2();
        if (softest != null && hardest != null && !accelerations.isEmpty()) {
            double low = accelerations.stream().mapToDouble(a -> a).min().orElse(softest);
            double high = accelerations.stream().mapToDouble(a -> a).max().orElse(hardest);
            if (low < softest / FACTOR) {
                gaps.add(new Gap(Lack.SOFTER_RAMPS, low, softest));
            }
            if (high > hardest * FACTOR) {
                gaps.add(new Gap(Lack.HARDER_RAMPS, high, hardest));
            }
        }
        double tried = 1 / evidence.shortestMm();
        if (mostStarts > FACTOR * tried) {
            gaps.add(new Gap(Lack.MORE_STARTS, mostStarts, 1 / mostStarts));
        }
        return new Coverage(below, above, loss, gain, gaps);
    }

    private static boolean back(PieceMotion motion) {
        return motion.backward().totalMm() > 0;
    }

    /** Returns the travel below the slowest tested speed beyond what each start of the trial crossed: v_min^2/a. */
    private static double slower(LineEvidence evidence, PieceMotion motion) {
        double slowest = evidence.slowestMmPerS(back(motion));
        double below = motion.belowMm(slowest * (1 - 1e-9));
        Double a = evidence.slowestAccelerationMmPerS2();
        double crossed = a == null ? 0 : motion.starts() * square(slowest) / a;
        double excess = below - crossed;
        return excess > 1e-9 * motion.pathMm() ? excess : 0;
    }

    /**
     * Where strokes told the start loss, it holds what the trial's own slow ramp ends did; ramps up to twice as soft then
     * lose in proportion, and the bound is that of the start loss. Null where that does not hold.
     */
    private static double @Nullable [] measuredRamps(LineEvidence evidence, PieceMotion motion, double excessMm) {
        Estimate start = evidence.startLossMm();
        Double a = evidence.slowestAccelerationMmPerS2();
        if (start == null || a == null || excessMm <= 0) {
            return null;
        }
        double slowest = evidence.slowestMmPerS(back(motion));
        double crossed = motion.starts() * square(slowest) / a;
        if (motion.steadyBelowMm(slowest * (1 - 1e-9)) > 0 || excessMm > crossed) {
            return null;
        }
        double share = motion.starts() * excessMm / crossed;
        return new double[] {
            Math.min(excessMm, share * Math.max(0, -start.low())), Math.min(excessMm, share * Math.max(0, start.high()))
        };
    }

    /**
     * With one stroke a loss per start reads like a scale error. Between "all scale" and "all start" at the fastest
     * speed, its expanded uncertainty included, lies what the line may see; the forecast itself takes all as scale.
     */
    private static double[] startBound(LineEvidence evidence, PieceMotion motion) {
        if (evidence.startLossMm() != null) {
            return new double[] {0, 0};
        }
        LineEvidence.Fast ahead = evidence.fast();
        LineEvidence.Backward returned = evidence.backward();
        LineEvidence.Fast behind = returned == null ? ahead : returned.fast();
        double changeAhead = motion.startsForward() - motion.forward().totalMm() / ahead.lengthMm();
        double changeBehind = -motion.startsBackward() + motion.backward().totalMm() / behind.lengthMm();
        double[] bound = returned == null
                ? bound(ahead, changeAhead + changeBehind)
                : sum(bound(ahead, changeAhead), bound(behind, changeBehind));
        return new double[] {Math.max(0, -bound[0]), Math.max(0, bound[1])};
    }

    /** Returns the ends of a change of starts times the error that one start may make. */
    private static double[] bound(LineEvidence.Fast fast, double change) {
        double one = change * Math.min(0, fast.errorMm() - fast.expandedMm());
        double other = change * Math.max(0, fast.errorMm() + fast.expandedMm());
        return new double[] {Math.min(one, other), Math.max(one, other)};
    }

    private static double[] sum(double[] a, double[] b) {
        return new double[] {a[0] + b[0], a[1] + b[1]};
    }

    private static double slowSpeed(LineEvidence evidence, List<WeightedPiece> pieces) {
        double tested = evidence.slowestMmPerS(pieces.stream().anyMatch(p -> back(p.motion())));
        double slowest = tested;
        for (WeightedPiece piece : pieces) {
            PieceMotion motion = piece.motion();
            for (int i = 1; i < motion.size(); i++) {
                double v = Math.abs(motion.speedMmPerS(i));
                if (v > 0 && v < slowest && v == Math.abs(motion.speedMmPerS(i - 1))) {
                    slowest = v;
                }
            }
        }
        return slowest < tested ? slowest : tested / 2;
    }

    /** Returns the accelerations of described steps, or those that the starts of a log show. */
    static List<Double> accelerations(List<LineStep> steps, @Nullable LineProfile log) {
        List<Double> all = new ArrayList<>();
        collect(steps, all);
        if (log != null) {
            fromLog(log, all);
        }
        return all;
    }

    private static void collect(List<LineStep> steps, List<Double> into) {
        for (LineStep step : steps) {
            if (step instanceof LineStep.RampTo ramp) {
                into.add(ramp.accelerationMmPerS2());
            } else if (step instanceof LineStep.Reverse reverse) {
                into.add(reverse.accelerationMmPerS2());
            } else if (step instanceof LineStep.Repeat repeat) {
                collect(repeat.steps(), into);
            }
        }
    }

    /** From rest to half of the highest speed of each move. */
    private static void fromLog(LineProfile log, List<Double> into) {
        int i = 0;
        while (i < log.size()) {
            if (log.speedMmPerS(i) != 0) {
                i++;
                continue;
            }
            int start = i;
            while (start + 1 < log.size() && log.speedMmPerS(start + 1) == 0) {
                start++;
            }
            double peak = 0;
            int end = start + 1;
            while (end < log.size() && log.speedMmPerS(end) != 0) {
                peak = Math.max(peak, Math.abs(log.speedMmPerS(end)));
                end++;
            }
            int at = start + 1;
            while (at < end && Math.abs(log.speedMmPerS(at)) < peak / 2) {
                at++;
            }
            if (at < end) {
                into.add(Math.abs(log.speedMmPerS(at)) / (log.timeS(at) - log.timeS(start)));
            }
            i = end;
        }
    }

    private static double square(double x) {
        return x * x;
    }
}
