package slowproof.trial.scatter;

import java.util.Objects;
import slowproof.trial.spectrum.TravelSpectrum;

/**
 * One pass as the statistics see it: the move between two consecutive standstills of a series, at one material.
 *
 * @param id name of the pass, for flags
 * @param series name of its series; passes of a series are given in the order they were run
 * @param indexInSeries place in the series, counted from 0
 * @param sharesReadingWithPrevious whether its first reading is the last one of the pass before in the list of the series
 * @param direction +1 forward, -1 return
 * @param errorMm error of indication in mm, sgn(reference) (indication - reference): positive = over-reads, both ways
 * @param travelMm size of the reference travel in mm, greater than 0
 * @param speedMmPerS programmed speed in mm/s, greater than 0
 * @param accelerationMmPerS2 programmed acceleration in mm/s², greater than 0, or NaN when unknown
 * @param starts number of starts from standstill within the pass, at least 1; more for stop-and-go
 * @param dropoutPct share of time without a valid signal in percent, 0 to 100, or NaN when unknown
 * @param spectrum distance against speed; its total stands for {@code travelMm}
 */
public record PassError(
        String id,
        String series,
        int indexInSeries,
        boolean sharesReadingWithPrevious,
        int direction,
        double errorMm,
        double travelMm,
        double speedMmPerS,
        double accelerationMmPerS2,
        int starts,
        double dropoutPct,
        TravelSpectrum spectrum) {
    /** Checks the parts. */
    public PassError {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(series, "series");
        Objects.requireNonNull(spectrum, "spectrum");
        if (indexInSeries < 0) {
            throw new IllegalArgumentException("places in a series count from 0: " + indexInSeries);
        }
        if (direction != 1 && direction != -1) {
            throw new IllegalArgumentException("direction must be +1 or -1: " + direction);
        }
        if (!Double.isFinite(errorMm)) {
            throw new IllegalArgumentException("error must be finite: " + errorMm + " mm");
        }
        requirePositive(travelMm, "travel", "mm");
        requirePositive(speedMmPerS, "speed", "mm/s");
        if (!Double.isNaN(accelerationMmPerS2)) {
            requirePositive(accelerationMmPerS2, "acceleration", "mm/s²");
        }
        if (starts < 1) {
            throw new IllegalArgumentException("a pass has at least one start: " + starts);
        }
        if (dropoutPct < 0 || dropoutPct > 100) {
            throw new IllegalArgumentException("dropout share must be 0 to 100 %: " + dropoutPct);
        }
    }

    /**
     * Returns a pass of a plain move from standstill to standstill. With an unknown acceleration all travel counts
     * at the programmed speed.
     *
     * @param accelerationMmPerS2 acceleration and deceleration in mm/s², or NaN when unknown
     */
    public static PassError ofMove(
            String id,
            String series,
            int indexInSeries,
            boolean sharesReadingWithPrevious,
            int direction,
            double errorMm,
            double travelMm,
            double speedMmPerS,
            double accelerationMmPerS2,
            double dropoutPct) {
        TravelSpectrum spectrum = Double.isNaN(accelerationMmPerS2)
                ? TravelSpectrum.atSpeed(speedMmPerS, travelMm)
                : TravelSpectrum.move(travelMm, speedMmPerS, accelerationMmPerS2);
        return new PassError(
                id,
                series,
                indexInSeries,
                sharesReadingWithPrevious,
                direction,
                errorMm,
                travelMm,
                speedMmPerS,
                accelerationMmPerS2,
                1,
                dropoutPct,
                spectrum);
    }

    private static void requirePositive(double value, String what, String unit) {
        if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(what + " must be greater than 0: " + value + " " + unit);
        }
    }
}
