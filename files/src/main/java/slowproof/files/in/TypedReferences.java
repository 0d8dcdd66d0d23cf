package slowproof.files.in;

import java.util.ArrayList;
import java.util.List;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;
import slowproof.trial.note.Quantity;
import slowproof.trial.recording.FoundPass;

/**
 * What the reference moved in each pass, typed for a log that holds the sensor alone, as with a tape.
 *
 * @param mm travel of each pass in mm, in their order, not zero: lengths without a sign, or with the sign of the direction
 * @param at where they are typed
 */
record TypedReferences(List<Double> mm, SourcePosition at) {
    private static final int LISTED = 30;

    /** Copies the list. */
    TypedReferences {
        mm = List.copyOf(mm);
    }

    /**
     * Returns the signed travel of each pass in mm; a length gets the direction that the sensor counted.
     *
     * @param passes passes found by the indication
     * @param log name of the log
     * @throws BadInputException if there are more or fewer of them than passes, with the passes found, or if one goes against the sensor
     */
    List<Double> of(List<FoundPass> passes, String log) {
        if (mm.size() != passes.size()) {
            int more = passes.size() - LISTED;
            throw BadInputException.of(
                    ProblemCode.REFERENCES_DIFFER,
                    at,
                    mm.size(),
                    passes.size(),
                    log,
                    listed(passes),
                    more > 0 ? more : "");
        }
        boolean signed = mm.stream().anyMatch(travel -> travel < 0);
        List<Double> travels = new ArrayList<>();
        for (int i = 0; i < passes.size(); i++) {
            double travel = mm.get(i);
            double shown = passes.get(i).indicationMm();
            if (signed && travel * shown < 0) {
                throw BadInputException.of(
                        ProblemCode.REFERENCE_AGAINST_SENSOR, at, i + 1, Quantity.mm(travel), Quantity.mm(shown));
            }
            travels.add(Math.copySign(travel, shown));
        }
        return travels;
    }

    /** Start and indication of the first passes, so that a person can tell which is missing or too many. */
    private static List<List<Quantity>> listed(List<FoundPass> passes) {
        return passes.subList(0, Math.min(LISTED, passes.size())).stream()
                .map(pass -> List.of(Quantity.moment(pass.startS()), Quantity.mm(pass.indicationMm())))
                .toList();
    }
}
