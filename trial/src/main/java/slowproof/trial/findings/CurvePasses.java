package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Reference;
import slowproof.trial.Trial;
import slowproof.trial.curve.CurveFit;
import slowproof.trial.curve.CurveResult;
import slowproof.trial.curve.CurveSettings;
import slowproof.trial.curve.Drawing;
import slowproof.trial.scatter.PassError;

/** Hands the passes of one material to the fit of its error curve, when there are enough speeds for one. */
final class CurvePasses {
    private CurvePasses() {}

    /**
     * Returns what the passes say of the error curve; null for a thin trial, which keeps its bracket.
     *
     * @param trial trial
     * @param passes passes of one material that count
     * @param drawing how the curve is drawn
     */
    static @Nullable CurveResult fit(Trial trial, List<Pass> passes, Drawing drawing) {
        long speeds = passes.stream().mapToDouble(Pass::speedMmPerS).distinct().count();
        return speeds < CurveFit.LEAST_SPEEDS ? null : always(trial, passes, drawing);
    }

    /** Returns the same for a thin trial too: without a curve, but with the errors at the tested speeds. */
    static CurveResult always(Trial trial, List<Pass> passes, Drawing drawing) {
        Reference reference = trial.reference();
        // the two parts of a + b L; a classed tape has one figure a metre, taken at the mean length
        double fixed = reference.hasUncertainty() ? reference.standardUncertaintyMm(0) : 0;
        double ratio = reference.hasUncertainty() ? reference.standardUncertaintyMm(1e6) / 1e6 - fixed / 1e6 : 0;
        Double resolution = trial.sensor().resolutionMm();
        CurveSettings settings = new CurveSettings(
                passes.get(0).material(),
                resolution == null ? 0 : resolution,
                MaterialScatter.stepMm(passes),
                fixed,
                ratio,
                drawing.seed(),
                CurveSettings.USUAL_DRAWS);
        return CurveFit.of(errors(passes), settings, drawing.store());
    }

    /** Returns the passes of one material as the statistics see them, in their order. */
    static List<PassError> errors(List<Pass> passes) {
        Map<String, Integer> places = new HashMap<>();
        Map<String, Integer> lastNumbers = new HashMap<>();
        List<PassError> errors = new ArrayList<>();
        for (Pass pass : passes) {
            int place = places.merge(pass.series(), 1, Integer::sum) - 1;
            Integer last = lastNumbers.put(pass.series(), pass.number());
            // a pass that was left out in between takes the shared reading with it
            boolean shares = pass.startsAtPreviousEnd() && last != null && last == pass.number() - 1;
            errors.add(PassError.ofMove(
                    pass.id(),
                    pass.series(),
                    place,
                    shares,
                    pass.direction() == Direction.FORWARD ? 1 : -1,
                    pass.errorMm(),
                    pass.lengthMm(),
                    pass.speedMmPerS(),
                    orNaN(pass.accelerationMmPerS2()),
                    orNaN(pass.dropoutPercent())));
        }
        return errors;
    }

    private static double orNaN(@Nullable Double value) {
        return value == null ? Double.NaN : value;
    }
}
