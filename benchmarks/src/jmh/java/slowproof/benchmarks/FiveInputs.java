package slowproof.benchmarks;

import java.util.List;
import slowproof.metrology.uncertainty.Input;
import slowproof.metrology.uncertainty.Normal;
import slowproof.metrology.uncertainty.Rectangular;
import slowproof.metrology.uncertainty.ScaledStudent;
import slowproof.metrology.uncertainty.Triangular;
import slowproof.metrology.uncertainty.UncertaintyModel;

/** A budget of the trade: the relative error of a length in ppm from five inputs of different shape. */
final class FiveInputs {

    private FiveInputs() {}

    static UncertaintyModel model() {
        return UncertaintyModel.of(
                List.of(
                        Input.of("indication, mm", new ScaledStudent(1000.4, 0.03, 9)),
                        Input.of("reference, mm", Normal.expanded(1000, 0.02, 2)),
                        Input.of("temperature above 20 C, K", Rectangular.about(1, 2)),
                        Input.of("expansion, 1/K", new Triangular(10.5e-6, 12.5e-6)),
                        Input.of("angle, rad", Normal.of(0, 0.005))),
                x -> 1e6 * (x[0] / (x[1] * (1 + x[3] * x[2]) * (1 - x[4] * x[4] / 2)) - 1));
    }
}
