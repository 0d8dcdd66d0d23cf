package slowproof.trial.dropout;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.jspecify.annotations.Nullable;
import slowproof.trial.scatter.PassError;

/**
 * The largest dropout share at which a pass may be trusted, learned from passes inside and outside the limit.
 *
 * <p>When the shares of good and bad passes do not overlap, the answer is the gap between them and the limit its
 * lower end. When they overlap, the chance of a bad pass is modelled by bias-reduced logistic regression on the
 * logarithm of the share, and the limit is the 95 % lower bound of the share at which that chance reaches
 * {@value #RISK}, by bootstrap over whole series: passes of a series are alike, so the number of series
 * counts, not that of passes. The limit holds for dropouts of the same cause, for shares taken over at least the
 * same distance, and for this limit of error.
 *
 * @param status kind of answer
 * @param limitPct the limit in percent, or null
 * @param estimatePct share at which the chance of a bad pass is estimated to reach the risk, in percent; null unless the
 *     classes overlap
 * @param gapLowPct largest share seen in good passes in percent, or null when no good pass has a share
 * @param gapHighPct smallest share seen in bad passes in percent, or null when no bad pass has a share
 * @param confidencePct confidence of the limit in percent; null when the classes separate (the gap itself is the answer)
 * @param sensitivity share of the bad passes that lie above the limit, 0 to 1, or null
 * @param falseAlarm share of the good passes that lie above the limit, 0 to 1, or null
 * @param series number of series with a share
 * @param averagedOverMm shortest travel over which a share was taken, in mm; NaN when there is no share
 * @param reason why there is no limit, or null
 */
public record DropoutLimit(
        Status status,
        @Nullable Double limitPct,
        @Nullable Double estimatePct,
        @Nullable Double gapLowPct,
        @Nullable Double gapHighPct,
        @Nullable Double confidencePct,
        @Nullable Double sensitivity,
        @Nullable Double falseAlarm,
        int series,
        double averagedOverMm,
        @Nullable Reason reason) {
    /** Chance of a pass outside the limit of error that the dropout limit accepts, 0 to 1. */
    public static final double RISK = 0.05;

    private static final int LEAST_SERIES = 4;
    private static final int RESAMPLES = 499;
    private static final double CONFIDENCE_PCT = 95;
    // share in percent added before the logarithm, so that a share of zero has a place
    private static final double OFFSET_PCT = 0.05;

    /** Kinds of answer. */
    public enum Status {
        /** Shares of good and bad passes overlap; the limit is a confidence bound. */
        FOUND,
        /** Shares of good and bad passes do not overlap; the limit is the largest good share. */
        FOUND_SEPARATED,
        /** No limit can be learned. */
        NOT_LEARNABLE;

        /** Returns the status as written in files. */
        public String key() {
            return switch (this) {
                case FOUND -> "found";
                case FOUND_SEPARATED -> "found (separated)";
                case NOT_LEARNABLE -> "not learnable";
            };
        }
    }

    /** Why no limit can be learned. Arguments of the sentence: {@link #gapLowPct}, {@link #gapHighPct}. */
    public enum Reason {
        /** No pass carries a share. */
        NO_SHARES,
        /** No pass failed; the largest share seen in good passes is known. */
        NO_PASS_FAILED,
        /** Only failed passes carry a share; the limit, if there is one, lies below the smallest. */
        ONLY_FAILED_PASSES,
        /** Classes overlap and too few series carry a share. */
        TOO_FEW_SERIES,
        /** Bad passes do not have larger shares than good ones. */
        NOT_RELATED,
        /** The chance of a bad pass is above the accepted risk, or may be, even at the smallest shares seen. */
        RISK_TOO_HIGH;

        /** Returns the code as key of the message bundles, lower_snake_case. */
        public String key() {
            return "dropout_" + name().toLowerCase(Locale.ROOT);
        }
    }

    private record Judged(String series, double sharePct, boolean outside) {}

    /**
     * Learns the limit.
     *
     * @param passes passes of one material; those without a share are left aside
     * @param limit largest permitted size of the relative error (ratio), greater than 0
     * @param seed seed of the bootstrap
     */
    public static DropoutLimit of(List<PassError> passes, double limit, long seed) {
        if (!(limit > 0 && limit < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("limit must be greater than 0: " + limit);
        }
        return of(passes, travelMm -> limit * travelMm, seed);
    }

    /**
     * Learns the limit for a limit of error that has a part of its own.
     *
     * @param passes passes of one material; those without a share are left aside
     * @param permittedErrorMm largest permitted size of the error in mm of a travel in mm
     * @param seed seed of the bootstrap
     */
    public static DropoutLimit of(List<PassError> passes, DoubleUnaryOperator permittedErrorMm, long seed) {
        List<Judged> judged = new ArrayList<>();
        double travel = Double.POSITIVE_INFINITY;
        for (PassError pass : passes) {
            if (!Double.isNaN(pass.dropoutPct())) {
                // a figure exactly on the limit is inside, whatever the last bit says
                boolean outside =
                        Math.abs(pass.errorMm()) > permittedErrorMm.applyAsDouble(pass.travelMm()) * (1 + 1e-12);
                judged.add(new Judged(pass.series(), pass.dropoutPct(), outside));
                travel = Math.min(travel, pass.travelMm());
            }
        }
        int series = (int) judged.stream().map(Judged::series).distinct().count();
        Double largestGood = null;
        Double smallestBad = null;
        for (Judged one : judged) {
            if (one.outside) {
                smallestBad = smallestBad == null ? one.sharePct : Math.min(smallestBad, one.sharePct);
            } else {
                largestGood = largestGood == null ? one.sharePct : Math.max(largestGood, one.sharePct);
            }
        }
        Answer answer = new Answer(judged, largestGood, smallestBad, series, judged.isEmpty() ? Double.NaN : travel);
        if (judged.isEmpty()) {
            return answer.none(Reason.NO_SHARES, null);
        }
        if (smallestBad == null) {
            return answer.none(Reason.NO_PASS_FAILED, null);
        }
        if (largestGood == null) {
            return answer.none(Reason.ONLY_FAILED_PASSES, null);
        }
        if (largestGood < smallestBad) {
            return answer.found(Status.FOUND_SEPARATED, largestGood, null, null);
        }
        if (series < LEAST_SERIES) {
            return answer.none(Reason.TOO_FEW_SERIES, null);
        }
        return overlapping(answer, seed);
    }

    private static DropoutLimit overlapping(Answer answer, long seed) {
        List<Judged> judged = answer.judged;
        double smallest = judged.stream().mapToDouble(Judged::sharePct).min().orElseThrow();
        double largest = judged.stream().mapToDouble(Judged::sharePct).max().orElseThrow();
        if (largest == smallest) {
            return answer.none(Reason.NOT_RELATED, null);
        }
        FirthLogistic fit = fit(judged);
        if (!(fit.slope() > 0)) {
            return answer.none(Reason.NOT_RELATED, null);
        }
        double estimate = shareAtRisk(fit, largest);
        if (estimate < smallest) {
            return answer.none(Reason.RISK_TOO_HIGH, null);
        }
        Map<String, List<Judged>> bySeries = new LinkedHashMap<>();
        for (Judged one : judged) {
            bySeries.computeIfAbsent(one.series, s -> new ArrayList<>()).add(one);
        }
        List<List<Judged>> clusters = List.copyOf(bySeries.values());
        UniformRandomProvider random = RandomSource.XO_SHI_RO_256_PP.create(seed);
        double[] limits = new double[RESAMPLES];
        for (int r = 0; r < RESAMPLES; r++) {
            List<Judged> sample = new ArrayList<>(judged.size());
            for (int i = 0; i < clusters.size(); i++) {
                sample.addAll(clusters.get(random.nextInt(clusters.size())));
            }
            limits[r] = shareAtRisk(sample, largest);
        }
        Arrays.sort(limits);
        double bound = limits[(int) Math.floor((1 - CONFIDENCE_PCT / 100) * (RESAMPLES - 1))];
        return bound < smallest
                ? answer.none(Reason.RISK_TOO_HIGH, estimate)
                : answer.found(Status.FOUND, Math.min(bound, estimate), estimate, CONFIDENCE_PCT);
    }

    private static double shareAtRisk(List<Judged> sample, double largest) {
        double first = sample.get(0).sharePct;
        boolean varies = false;
        boolean anyOutside = false;
        for (Judged one : sample) {
            varies |= one.sharePct != first;
            anyOutside |= one.outside;
        }
        if (!varies) {
            return anyOutside ? 0 : largest;
        }
        return shareAtRisk(fit(sample), largest);
    }

    private static FirthLogistic fit(List<Judged> sample) {
        double[] x = new double[sample.size()];
        boolean[] outside = new boolean[sample.size()];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.log(sample.get(i).sharePct + OFFSET_PCT);
            outside[i] = sample.get(i).outside;
        }
        return FirthLogistic.fit(x, outside);
    }

    /** Largest share, up to the largest seen, at which the chance of a bad pass does not exceed the risk; 0 when none. */
    private static double shareAtRisk(FirthLogistic fit, double largest) {
        double logit = Math.log(RISK / (1 - RISK));
        if (!(fit.slope() > 0)) {
            return fit.intercept() + fit.slope() * Math.log(OFFSET_PCT) <= logit ? largest : 0;
        }
        double share = Math.exp((logit - fit.intercept()) / fit.slope()) - OFFSET_PCT;
        return Math.max(0, Math.min(largest, share));
    }

    private record Answer(
            List<Judged> judged,
            @Nullable Double largestGood,
            @Nullable Double smallestBad,
            int series,
            double travelMm) {
        DropoutLimit none(Reason reason, @Nullable Double estimate) {
            return new DropoutLimit(
                    Status.NOT_LEARNABLE,
                    null,
                    estimate,
                    largestGood,
                    smallestBad,
                    null,
                    null,
                    null,
                    series,
                    travelMm,
                    reason);
        }

        DropoutLimit found(Status status, double limit, @Nullable Double estimate, @Nullable Double confidence) {
            int bad = 0;
            int caught = 0;
            int good = 0;
            int alarms = 0;
            for (Judged one : judged) {
                boolean above = one.sharePct > limit;
                bad += one.outside ? 1 : 0;
                caught += one.outside && above ? 1 : 0;
                good += one.outside ? 0 : 1;
                alarms += !one.outside && above ? 1 : 0;
            }
            return new DropoutLimit(
                    status,
                    limit,
                    estimate,
                    largestGood,
                    smallestBad,
                    confidence,
                    (double) caught / bad,
                    (double) alarms / good,
                    series,
                    travelMm,
                    null);
        }
    }
}
