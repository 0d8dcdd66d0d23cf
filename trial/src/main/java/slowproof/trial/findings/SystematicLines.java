package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.uncertainty.Component;
import slowproof.trial.Setup;
import slowproof.trial.Trial;

/**
 * The lines of the budget that all passes of a condition share and that do not shrink with repeats, relative to
 * a mean length. Each is evaluated from stated bounds or certificates (type B, JCGM 100:2008 clause 4.3), so its
 * degrees of freedom are infinite. A line without input is absent.
 */
final class SystematicLines {
    private SystematicLines() {}

    /**
     * Returns the lines.
     *
     * @param trial trial
     * @param lengthMm mean length of the passes in mm, above zero
     * @param standstillDriftMm what the sensor gains at rest over the dwells beside a pass, in mm, not negative; 0 for none
     */
    static List<Component> of(Trial trial, double lengthMm, double standstillDriftMm) {
        List<Component> lines = new ArrayList<>();
        if (trial.reference().hasUncertainty()) {
            add(lines, BudgetSource.REFERENCE, trial.reference().standardUncertaintyMm(lengthMm) / lengthMm);
        }
        Double resolution = trial.sensor().resolutionMm();
        if (resolution != null) {
            // two readings, each rectangular over one step: variance 2 r^2/12
            add(lines, BudgetSource.RESOLUTION, resolution / Math.sqrt(6) / lengthMm);
        }
        Setup setup = trial.setup();
        Double misalignment = setup.misalignmentDegrees();
        if (misalignment != null) {
            // the sensor reads short by 1 - cos(theta): JCGM 100:2008 F.2.4.4; bound taken as a half width
            add(lines, BudgetSource.MISALIGNMENT, (1 - Math.cos(Math.toRadians(misalignment))) / Math.sqrt(3));
        }
        add(lines, BudgetSource.TEMPERATURE, temperature(setup));
        add(lines, BudgetSource.ABBE, abbe(setup, lengthMm));
        if (standstillDriftMm > 0) {
            // nobody knows how much of it the readings at both ends hold: the whole is a half width
            add(lines, BudgetSource.STANDSTILL_DRIFT, standstillDriftMm / Math.sqrt(3) / lengthMm);
        }
        return lines;
    }

    private static @Nullable Double temperature(Setup setup) {
        Double halfWidth = setup.temperatureHalfWidthC();
        Double expansion = setup.expansionPpmPerK();
        return halfWidth == null || expansion == null ? null : expansion * 1e-6 * halfWidth / Math.sqrt(3);
    }

    private static @Nullable Double abbe(Setup setup, double lengthMm) {
        Double offset = setup.abbeOffsetMm();
        Double angle = setup.abbeAngleDegrees();
        return offset == null || angle == null
                ? null
                : Math.abs(offset) * Math.tan(Math.toRadians(angle)) / Math.sqrt(3) / lengthMm;
    }

    private static void add(List<Component> lines, BudgetSource source, @Nullable Double standardUncertainty) {
        if (standardUncertainty != null) {
            lines.add(new Component(source.name(), standardUncertainty, Double.POSITIVE_INFINITY));
        }
    }
}
