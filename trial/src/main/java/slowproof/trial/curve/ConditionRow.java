package slowproof.trial.curve;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import slowproof.trial.scatter.ConditionBlock;
import slowproof.trial.scatter.PassError;
import slowproof.trial.scatter.WithinScatter;
import slowproof.trial.spectrum.TravelSpectrum;

/**
 * The passes of one condition, taken together.
 *
 * @param block the passes
 * @param speedMmPerS speed reached, in mm/s: the programmed one, or the peak of a move too short to reach it
 * @param travelMm mean travel of a pass in mm
 * @param meanErrorMm mean error of a pass in mm
 * @param spectrum mean travel spectrum of a pass
 * @param within scatter within series and direction
 * @param endpointFactor factor f so that f times the variance of one reading is what the readings add to the variance
 *     of the mean: (4 n - 2)/n^2 for n passes to and fro that share their readings, 2/n^2 for n passes on the same way
 * @param alternating whether neighbouring passes to and fro share a reading
 */
record ConditionRow(
        ConditionBlock block,
        double speedMmPerS,
        double travelMm,
        double meanErrorMm,
        TravelSpectrum spectrum,
        WithinScatter.Squares within,
        double endpointFactor,
        boolean alternating) {
    // a move whose peak stays below this share of the programmed speed did not reach it
    private static final double REACHED = 0.98;

    static List<ConditionRow> of(List<PassError> passes) {
        return ConditionBlock.of(passes).stream()
                .map(ConditionRow::of)
                .sorted(Comparator.comparingDouble(ConditionRow::speedMmPerS))
                .toList();
    }

    private static ConditionRow of(ConditionBlock block) {
        List<PassError> passes = block.passes();
        int n = passes.size();
        List<TravelSpectrum> spectra = new ArrayList<>(n);
        double errors = 0;
        double endpoints = 0;
        boolean alternating = false;
        for (int i = 0; i < n; i++) {
            PassError pass = passes.get(i);
            spectra.add(pass.spectrum());
            errors += pass.errorMm();
            endpoints += 2;
            if (i > 0 && block.sharesReading(i)) {
                int turn = -pass.direction() * passes.get(i - 1).direction();
                endpoints += 2 * turn;
                alternating |= turn > 0;
            }
        }
        TravelSpectrum spectrum = TravelSpectrum.sum(spectra).times(1.0 / n);
        double programmed = passes.get(0).speedMmPerS();
        double peak = spectrum.peakMmPerS();
        return new ConditionRow(
                block,
                peak < REACHED * programmed ? peak : programmed,
                block.meanTravelMm(),
                errors / n,
                spectrum,
                WithinScatter.squares(block),
                endpoints / ((double) n * n),
                alternating);
    }

    int passes() {
        return block.passes().size();
    }

    int starts() {
        return block.starts();
    }

    boolean reachedItsSpeed() {
        return speedMmPerS == block.passes().get(0).speedMmPerS();
    }
}
