package slowproof.benchmarks;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import slowproof.metrology.sampling.BlockStreams;
import slowproof.metrology.sampling.ModelFunction;
import slowproof.metrology.sampling.Points;
import slowproof.metrology.sampling.VectorSource;
import slowproof.metrology.uncertainty.MonteCarlo;
import slowproof.metrology.uncertainty.MonteCarloResult;
import slowproof.metrology.uncertainty.MonteCarloSettings;
import slowproof.metrology.uncertainty.UncertaintyModel;

/** Trials a second of a five-input model: the inner loop alone, and a whole run with sorting. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
public class MonteCarloBenchmark {

    private static final int TRIALS = 1 << 20;

    private final UncertaintyModel model = FiveInputs.model();

    /** The inner loop of one thread. */
    @State(Scope.Thread)
    public static class Loop {
        final UncertaintyModel model = FiveInputs.model();
        final ModelFunction function = model.function();
        final VectorSource source = model.source(BlockStreams.of(1).next());
        final double[] x = new double[5];
    }

    /** A whole run. */
    @State(Scope.Benchmark)
    public static class Run {
        @Param({"1", "2"})
        int threads;

        @Param
        Points points = Points.PSEUDO_RANDOM;
    }

    /**
     * Draws and evaluates, nothing else; allocation must be zero.
     *
     * @param loop of this thread
     * @return so that the work is not optimised away
     */
    @Benchmark
    @OperationsPerInvocation(10_000)
    public double innerLoop(Loop loop) {
        double sum = 0;
        for (int i = 0; i < 10_000; i++) {
            loop.source.next(loop.x);
            sum += loop.function.value(loop.x);
        }
        return sum;
    }

    /**
     * A million trials, sorted, with both intervals at hand.
     *
     * @param run how
     * @return the result
     */
    @Benchmark
    @OperationsPerInvocation(TRIALS)
    public MonteCarloResult propagation(Run run) {
        return MonteCarlo.fixed(
                model, TRIALS, MonteCarloSettings.of(1).withThreads(run.threads).withPoints(run.points));
    }
}
