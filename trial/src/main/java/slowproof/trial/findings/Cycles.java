package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.ReadingMode;

/** Pairs passes to cycles: a forward pass and the very next pass of the series if that is a return; no pass twice. */
final class Cycles {
    private Cycles() {}

    static List<Cycle> of(List<Pass> passes, ReadingMode mode) {
        List<Cycle> cycles = new ArrayList<>();
        for (int i = 0; i + 1 < passes.size(); i++) {
            Pass forward = passes.get(i);
            Pass next = passes.get(i + 1);
            boolean pair = forward.direction() == Direction.FORWARD
                    && next.direction() == Direction.RETURN
                    && next.number() == forward.number() + 1
                    && next.series().equals(forward.series());
            if (pair) {
                cycles.add(new Cycle(forward, next, mode == ReadingMode.ZEROED ? null : closure(forward, next)));
                i++;
            }
        }
        return cycles;
    }

    private static double closure(Pass forward, Pass back) {
        int decimals = Math.max(forward.decimals(), back.decimals());
        return Decimals.scaled(forward.errorMm() - back.errorMm(), decimals);
    }
}
