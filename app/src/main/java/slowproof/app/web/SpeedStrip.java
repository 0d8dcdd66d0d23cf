package slowproof.app.web;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.evidence.Assessment;
import slowproof.trial.evidence.Evidence;
import slowproof.trial.evidence.Inquiry;
import slowproof.trial.findings.Answer;

/**
 * A drawing of asked against tested speeds on a logarithmic scale, 640 wide.
 *
 * @param askedFrom left end of the asked range
 * @param askedTo right end of the asked range, at least a little right of the left one
 * @param testedFrom left end of the tested range
 * @param testedTo right end of the tested range
 * @param marks tested speeds
 */
public record SpeedStrip(double askedFrom, double askedTo, double testedFrom, double testedTo, List<Mark> marks) {
    private static final double LEFT = 20;
    private static final double RIGHT = 620;
    private static final double LEAST = 8;
    private static final double NEAR = 34;

    /** Copies the list. */
    public SpeedStrip {
        marks = List.copyOf(marks);
    }

    /**
     * A tested speed.
     *
     * @param x where
     * @param speedMmPerS speed in mm/s
     * @param low whether its figure stands in the lower row, because it would touch its neighbour
     * @param answer answer about one pass; screening only where the speed does not bear on the question
     */
    public record Mark(double x, double speedMmPerS, boolean low, Answer answer) {}

    static SpeedStrip of(Assessment said) {
        Inquiry inquiry = said.inquiry();
        Evidence evidence = said.evidence();
        double low = Math.min(inquiry.slowestMmPerS(), evidence.slowestMmPerS());
        double high = Math.max(inquiry.upTo(), evidence.fastestMmPerS());
        Scale scale = new Scale(low, high);
        List<Mark> marks = new ArrayList<>();
        List<Double> speeds = evidence.points().stream()
                .map(Evidence.Point::speedMmPerS)
                .distinct()
                .sorted()
                .toList();
        for (double speed : speeds) {
            Mark before = marks.isEmpty() ? null : marks.get(marks.size() - 1);
            boolean lower = before != null && !before.low() && scale.x(speed) - before.x() < NEAR;
            marks.add(new Mark(scale.x(speed), speed, lower, answer(said, speed)));
        }
        double from = scale.x(inquiry.slowestMmPerS());
        return new SpeedStrip(
                from,
                Math.max(from + LEAST, scale.x(inquiry.upTo())),
                scale.x(evidence.slowestMmPerS()),
                Math.max(scale.x(evidence.slowestMmPerS()) + LEAST, scale.x(evidence.fastestMmPerS())),
                marks);
    }

    /** Returns the least favourable answer at a speed; screening only where the speed does not bear on the question. */
    private static Answer answer(Assessment said, double speed) {
        Answer worst = Answer.SCREENING_ONLY;
        for (Assessment.Judged one : said.judged()) {
            if (one.point().speedMmPerS() != speed) {
                continue;
            }
            boolean worse = worst == Answer.SCREENING_ONLY
                    || one.answer() == Answer.DOES_NOT_CONFORM
                    || worst == Answer.CONFORMS;
            worst = worse ? one.answer() : worst;
        }
        return worst;
    }

    private record Scale(double low, double high) {
        double x(double speed) {
            return high <= low
                    ? (LEFT + RIGHT) / 2
                    : LEFT + (RIGHT - LEFT) * Math.log(speed / low) / Math.log(high / low);
        }
    }
}
