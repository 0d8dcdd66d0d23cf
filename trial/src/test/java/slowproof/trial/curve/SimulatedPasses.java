package slowproof.trial.curve;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import slowproof.trial.scatter.PassError;
import slowproof.trial.simulator.Bench;
import slowproof.trial.simulator.BenchPlan;
import slowproof.trial.simulator.RandomStreams;
import slowproof.trial.simulator.SimReading;

/** Passes from the readings of the simulated bench. */
public final class SimulatedPasses {
    private SimulatedPasses() {}

    /** Runs the plan and returns the passes as a trial would see them, the acceleration known. */
    public static List<PassError> of(BenchPlan plan, RandomStreams streams) {
        Map<String, SimReading> before = new HashMap<>();
        Map<String, Integer> count = new HashMap<>();
        List<PassError> passes = new ArrayList<>();
        for (SimReading reading : Bench.read(plan, streams).readings()) {
            SimReading start = before.put(reading.series(), reading);
            if (start == null) {
                continue;
            }
            int index = count.merge(reading.series(), 1, Integer::sum) - 1;
            double reference = reading.referenceMm() - start.referenceMm();
            double indication = reading.readingMm() - start.readingMm();
            double sign = Math.signum(reference);
            passes.add(PassError.ofMove(
                    reading.series() + "/" + (index + 1),
                    reading.series(),
                    index,
                    index > 0,
                    (int) sign,
                    sign * (indication - reference),
                    Math.abs(reference),
                    reading.speedMmPerS(),
                    reading.accelerationMmPerS2(),
                    reading.dropoutPct()));
        }
        return passes;
    }
}
