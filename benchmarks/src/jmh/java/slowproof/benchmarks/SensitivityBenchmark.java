package slowproof.benchmarks;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import slowproof.metrology.sampling.Points;
import slowproof.metrology.sampling.SensitivityPlan;
import slowproof.metrology.sampling.SobolIndices;
import slowproof.metrology.uncertainty.Budget;
import slowproof.metrology.uncertainty.UncertaintyModel;

/** What a budget and the sensitivity indices of a five-input model take. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
public class SensitivityBenchmark {

    private final UncertaintyModel model = FiveInputs.model();

    /** How the indices are computed. */
    @State(Scope.Benchmark)
    public static class Run {
        @Param({"1", "2"})
        int threads;
    }

    /**
     * The budget of the law of propagation, numeric differentiation included.
     *
     * @return the budget
     */
    @Benchmark
    public Budget budget() {
        return Budget.of(model);
    }

    /**
     * First-order and total indices from 32 blocks of 1024 Sobol points: 229,376 evaluations.
     *
     * @param run how
     * @return the indices
     */
    @Benchmark
    public SobolIndices indices(Run run) {
        return SobolIndices.estimate(
                model.function(),
                model.transform(),
                model.groups(),
                new SensitivityPlan(1024, 32, Points.SOBOL, 0.95, 1, run.threads));
    }
}
