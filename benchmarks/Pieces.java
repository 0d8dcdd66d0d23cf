import com.sun.management.OperatingSystemMXBean;
import com.sun.management.ThreadMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import slowproof.files.in.LineReader;
import slowproof.files.in.TrialReader;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.forecast.Contribution;
import slowproof.trial.forecast.Forecast;
import slowproof.trial.forecast.Forecasting;
import slowproof.trial.forecast.Settings;
import slowproof.trial.line.Line;

/**
 * Times the Monte Carlo part of a forecast, wall and processor, and counts what it allocates; prints the figures that
 * pieces.py needs for the same model.
 */
public final class Pieces {
    private static final int ROUNDS = 10;

    public static void main(String[] words) throws IOException {
        long pieces = Long.parseLong(words[2]);
        LineEvidence evidence =
                LineEvidence.of(Evaluation.of(TrialReader.read(Path.of(words[0])).trial()), "acoustic felt", 1);
        Line line = LineReader.read(Path.of(words[1])).line();
        Settings settings = new Settings(1, pieces, false, Runtime.getRuntime().availableProcessors());
        var processor = (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
        var threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        double best = Double.POSITIVE_INFINITY;
        double leastProcessor = Double.POSITIVE_INFINITY;
        double leastAllocated = Double.POSITIVE_INFINITY;
        Forecast.Sampled run = null;
        for (int i = 0; i < ROUNDS; i++) {
            long begin = System.nanoTime();
            long processorBegin = processor.getProcessCpuTime();
            long allocatedBegin = threads.getTotalThreadAllocatedBytes();
            run = Forecasting.sample(evidence, line, settings);
            leastAllocated = Math.min(leastAllocated, threads.getTotalThreadAllocatedBytes() - allocatedBegin);
            leastProcessor = Math.min(leastProcessor, (processor.getProcessCpuTime() - processorBegin) * 1e-9);
            best = Math.min(best, (System.nanoTime() - begin) * 1e-9);
        }
        System.out.printf(
                "Slowproof  %7.3f s, processor %7.3f s  mean error %+.5f mm%n",
                best, leastProcessor, run.expectedErrorMm());
        System.out.printf(
                "           allocated %.1f MB a run, %.2f bytes a piece; peak of the program %d MB%n",
                leastAllocated * 1e-6, leastAllocated / pieces, peakMb());
        Forecast.Figures figures = Forecasting.of(evidence, line, new Settings(1, 2, false, 1)).figures();
        double[] sd = new double[Contribution.Source.values().length];
        for (Contribution part : figures.contributions()) {
            sd[part.source().ordinal()] = part.standardUncertaintyMm();
        }
        System.err.printf(
                java.util.Locale.ROOT,
                "seconds=%s%nprocessor=%s%nfigures=%d %s %s %s %s %s %s %s %s %s%n",
                best,
                leastProcessor,
                pieces,
                figures.expectedErrorMm(),
                sd[Contribution.Source.CURVE.ordinal()],
                sd[Contribution.Source.REFERENCE.ordinal()],
                sd[Contribution.Source.START_SCATTER.ordinal()] / Math.sqrt(2),
                sd[Contribution.Source.TRAVEL_SCATTER.ordinal()],
                evidence.readingStepMm(),
                sd[Contribution.Source.TRIGGER.ordinal()],
                line.pieces().get(0).lengthMm(),
                line.pieces().get(0).upperMm());
    }

    /** Returns the largest resident memory of this process so far, from the kernel; 0 where it does not tell. */
    private static long peakMb() throws IOException {
        Path status = Path.of("/proc/self/status");
        if (!Files.exists(status)) {
            return 0;
        }
        return Files.readAllLines(status).stream()
                .filter(text -> text.startsWith("VmHWM"))
                .mapToLong(text -> Long.parseLong(text.replaceAll("[^0-9]", "")) / 1024)
                .findFirst()
                .orElse(0);
    }
}
