package slowproof.trial.simulator;

import java.util.Objects;

/**
 * What really happened in one pass. Errors are signed by the direction of travel: positive = over-reads.
 *
 * @param series name of the series
 * @param pass number of the pass in its series, counted from 1
 * @param travelMm true travel, mm, negative on a return pass
 * @param systematicErrorMm the error that every such pass has: error curve over the true motion, start loss and
 *     extra error of return passes, mm
 * @param errorMm the error before counting: the systematic one, the series' own scale error, drift and all scatter, mm
 * @param dropoutShare share of the time of the move without valid signal, ratio
 * @param leftRestS time at which the move began, s from the first standstill of the trial or recording
 * @param atRestS time at which it ended, s
 */
public record PassTruth(
        String series,
        int pass,
        double travelMm,
        double systematicErrorMm,
        double errorMm,
        double dropoutShare,
        double leftRestS,
        double atRestS) {
    /** Checks the parts. */
    public PassTruth {
        Objects.requireNonNull(series, "series");
    }
}
