package slowproof.benchmarks;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import slowproof.trial.curve.CurveFit;
import slowproof.trial.curve.CurveResult;
import slowproof.trial.curve.CurveSettings;
import slowproof.trial.curve.FloorEstimate;
import slowproof.trial.scatter.PassError;
import slowproof.trial.spectrum.TravelSpectrum;

/** What the error curves and floors of three materials take: 13 speeds of 12 passes each, 2,000 draws, one thread. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 3)
@Measurement(iterations = 5, time = 3)
@Fork(1)
public class CurveFitBenchmark {
    private static final double[] SPEEDS = {12, 16, 21, 28, 37, 49, 65, 87, 115, 153, 204, 272, 360};

    private final List<List<PassError>> materials = List.of(
            passes(1, 0.0004, -0.02, 60, 8), passes(2, -0.0002, 0.008, 30, 6), passes(3, 0.0001, -0.045, 110, 20));

    /**
     * Curves and floors of the three materials.
     *
     * @return the floors
     */
    @Benchmark
    public List<FloorEstimate> threeMaterials() {
        List<FloorEstimate> floors = new ArrayList<>();
        for (List<PassError> passes : materials) {
            CurveResult result =
                    CurveFit.of(passes, new CurveSettings("material", 0.05, 0.01, 4e-6, 1, CurveSettings.USUAL_DRAWS));
            floors.add(result.floor(0.0015));
        }
        return floors;
    }

    private static List<PassError> passes(long seed, double scale, double depth, double knee, double width) {
        SplittableRandom random = new SplittableRandom(seed);
        List<PassError> out = new ArrayList<>();
        for (double speed : SPEEDS) {
            double mean = TravelSpectrum.move(900, speed, 500)
                    .integral(v -> scale + depth / (1 + Math.exp((v - knee) / width)));
            for (int i = 0; i < 12; i++) {
                double normal =
                        Math.sqrt(-2 * Math.log(1 - random.nextDouble())) * Math.cos(2 * Math.PI * random.nextDouble());
                out.add(PassError.ofMove(
                        speed + "/" + i,
                        "v" + speed,
                        i,
                        i > 0,
                        i % 2 == 0 ? 1 : -1,
                        mean + 0.03 * normal,
                        900,
                        speed,
                        500,
                        0.1));
            }
        }
        return out;
    }
}
