package slowproof.app.text;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.line.LineStep;
import slowproof.trial.note.Quantity;
import slowproof.wording.LineReply;
import slowproof.wording.Wording;

/** The steps of a line's cycle in words, in the order of time. */
final class LineSteps {
    private LineSteps() {}

    static String of(List<LineStep> steps, Wording wording) {
        List<String> words = new ArrayList<>();
        for (LineStep step : steps) {
            words.add(step(step, wording));
        }
        return String.join(", ", words);
    }

    private static String step(LineStep step, Wording wording) {
        if (step instanceof LineStep.RampTo ramp) {
            String acceleration = wording.numbers().plain(ramp.accelerationMmPerS2());
            return ramp.speedMmPerS() == 0
                    ? wording.text("written.line.step.stop_ramp", acceleration)
                    : wording.text(
                            "written.line.step.ramp",
                            wording.quantity(Quantity.mmPerS(ramp.speedMmPerS())),
                            acceleration);
        }
        if (step instanceof LineStep.HoldMm hold) {
            return wording.text("written.line.step.hold_mm", LineReply.mm(hold.distanceMm(), wording));
        }
        if (step instanceof LineStep.HoldS hold) {
            return wording.text("written.line.step.hold_s", wording.numbers().plain(hold.durationS()));
        }
        if (step instanceof LineStep.Stop stop) {
            return wording.text("written.line.step.rest", wording.numbers().plain(stop.durationS()));
        }
        if (step instanceof LineStep.Reverse reverse) {
            return wording.text(
                    "written.line.step.reverse",
                    LineReply.mm(reverse.distanceMm(), wording),
                    wording.quantity(Quantity.mmPerS(reverse.speedMmPerS())),
                    wording.numbers().plain(reverse.accelerationMmPerS2()));
        }
        if (step instanceof LineStep.Repeat repeat) {
            return wording.text("written.line.step.repeat", repeat.times(), of(repeat.steps(), wording));
        }
        return wording.text("written.line.step.hold_rest");
    }
}
