package slowproof.metrology.sampling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import org.apache.commons.rng.UniformRandomProvider;
import org.junit.jupiter.api.Test;

class ParallelBlocksTest {

    private static List<Double> sums(int threads) {
        return ParallelBlocks.map(
                BlockStreams.of(42), 25, threads, random -> random.doubles(1000).sum());
    }

    @Test
    void numberOfThreadsDoesNotChangeAnything() {
        List<Double> alone = sums(1);
        assertThat(alone).doesNotHaveDuplicates().hasSize(25);
        assertThat(sums(2)).isEqualTo(alone);
        assertThat(sums(7)).isEqualTo(alone);
        assertThat(sums(100)).isEqualTo(alone);
    }

    @Test
    void laterBlocksContinueTheSameStreams() {
        BlockStreams streams = BlockStreams.of(42);
        List<Double> first = ParallelBlocks.map(
                streams, 10, 2, random -> random.doubles(1000).sum());
        List<Double> rest = ParallelBlocks.map(
                streams, 15, 1, random -> random.doubles(1000).sum());
        assertThat(first).isEqualTo(sums(1).subList(0, 10));
        assertThat(rest).isEqualTo(sums(1).subList(10, 25));
    }

    @Test
    void seedsGiveDifferentStreams() {
        assertThat(BlockStreams.of(1).next().nextLong())
                .isNotEqualTo(BlockStreams.of(2).next().nextLong());
        assertThat(BlockStreams.of(1).next().nextLong())
                .isEqualTo(BlockStreams.of(1).next().nextLong());
    }

    @Test
    void noBlocksGiveNothing() {
        assertThat(ParallelBlocks.map(BlockStreams.of(1), 0, 4, UniformRandomProvider::nextLong))
                .isEmpty();
    }

    @Test
    void oneThreadIsTheCallersOwn() {
        assertThat(ParallelBlocks.map(BlockStreams.of(1), 3, 1, random -> Thread.currentThread()))
                .containsOnly(Thread.currentThread());
        assertThat(ParallelBlocks.map(BlockStreams.of(1), 1, 8, random -> Thread.currentThread()))
                .containsOnly(Thread.currentThread());
        assertThat(ParallelBlocks.map(BlockStreams.of(1), 3, 2, random -> Thread.currentThread()))
                .doesNotContain(Thread.currentThread())
                .allMatch(Thread::isDaemon);
    }

    @Test
    void severalBlocksRunAtOnce() {
        CountDownLatch both = new CountDownLatch(2);
        List<Boolean> met = ParallelBlocks.map(BlockStreams.of(1), 2, 2, random -> {
            both.countDown();
            try {
                both.await();
                return true;
            } catch (InterruptedException e) {
                throw new IllegalStateException(e);
            }
        });
        assertThat(met).containsExactly(true, true);
    }

    @Test
    void theEarliestFailureIsReportedAsItWasThrown() {
        for (int threads : new int[] {1, 2}) {
            AtomicInteger block = new AtomicInteger();
            assertThatExceptionOfType(ArithmeticException.class)
                    .isThrownBy(() -> ParallelBlocks.map(BlockStreams.of(1), 50, threads, random -> {
                        if (block.getAndIncrement() == 20) {
                            throw new ArithmeticException("block 20");
                        }
                        return 1;
                    }))
                    .withMessage("block 20");
            assertThatExceptionOfType(AssertionError.class)
                    .isThrownBy(() -> ParallelBlocks.map(BlockStreams.of(1), 3, threads, random -> {
                        throw new AssertionError("worst");
                    }))
                    .withMessage("worst");
        }
    }

    @Test
    void interruptionStopsTheWork() throws InterruptedException {
        for (int threads : new int[] {1, 2}) {
            AtomicInteger done = new AtomicInteger();
            AtomicReference<Object> outcome = new AtomicReference<>();
            Thread caller = new Thread(() -> {
                Thread.currentThread().interrupt();
                try {
                    ParallelBlocks.map(BlockStreams.of(1), 100_000, threads, random -> {
                        done.incrementAndGet();
                        return random.doubles(1000).sum();
                    });
                } catch (CancellationException e) {
                    outcome.set(Thread.currentThread().isInterrupted());
                }
            });
            caller.start();
            caller.join();
            assertThat(outcome.get())
                    .as("still interrupted, %s threads", threads)
                    .isEqualTo(true);
            assertThat(done.get()).isLessThan(100_000);
        }
    }

    @Test
    void atLeastOneThreadIsNeeded() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> ParallelBlocks.map(BlockStreams.of(1), 5, 0, random -> 1));
    }
}
