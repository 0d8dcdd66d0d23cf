package slowproof.benchmarks;

import java.util.SplittableRandom;
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
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import slowproof.trial.counts.Quadrature;

/** Edges a second of one core, decoding a list of a hundred million edges that turns round now and then. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
public class QuadratureBenchmark {
    private static final int EDGES = 100_000_000;

    /** Levels of both channels in Gray order, 2 a + b. */
    private static final byte[] LEVELS = {0, 2, 3, 1};

    @Param
    Quadrature.Evaluation evaluation = Quadrature.Evaluation.X4;

    private final byte[] edges = new byte[EDGES];

    /** Makes the list: an edge forward or back, the direction changes once in a thousand edges. */
    @Setup
    public void walk() {
        SplittableRandom random = new SplittableRandom(4);
        int phase = 0;
        int sense = 1;
        for (int i = 0; i < EDGES; i++) {
            sense = random.nextInt(1000) == 0 ? -sense : sense;
            phase = (phase + sense) & 3;
            edges[i] = LEVELS[phase];
        }
    }

    /** Decodes all of it. */
    @Benchmark
    @OperationsPerInvocation(EDGES)
    public long decode() {
        Quadrature decoder = new Quadrature(evaluation);
        for (byte levels : edges) {
            decoder.accept((levels & 2) != 0, (levels & 1) != 0);
        }
        return decoder.count() + decoder.illegalTransitions();
    }
}
