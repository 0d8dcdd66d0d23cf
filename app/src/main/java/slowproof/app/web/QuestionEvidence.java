package slowproof.app.web;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import slowproof.archive.TrialIndex;
import slowproof.archive.Tried;
import slowproof.trial.evidence.Assessment;
import slowproof.trial.evidence.Distance;
import slowproof.trial.evidence.Inquiry;
import slowproof.trial.evidence.NameLikeness;
import slowproof.trial.evidence.Nearest;

/**
 * Evidence found in the archive for an inquiry.
 *
 * @param tried the surface of a trial, with its conditions
 * @param distance how far it lies
 * @param said what it says
 */
public record QuestionEvidence(Tried tried, Distance distance, Assessment said) {
    /** How many pieces of evidence are shown. */
    static final int SHOWN = 3;

    /** Names less alike than this are hardly the same kind of surface; our choice. */
    private static final double ALIKE = 0.4;

    private static final int FEW_NAMES = 5;
    private static final int MOST_NAMES = 200;

    /** Returns the nearest evidence, the nearest first; among equally near ones the last changed. */
    static List<QuestionEvidence> of(Inquiry inquiry, TrialIndex index) {
        List<Tried> candidates = index.tried(names(inquiry, index));
        List<QuestionEvidence> nearest = new ArrayList<>();
        for (Nearest.Found<Tried> found :
                Nearest.of(inquiry, candidates, one -> one.surface().evidence(), SHOWN)) {
            Tried whole = index.withConditions(found.found());
            Assessment said = Assessment.of(inquiry, whole.surface().evidence());
            nearest.add(new QuestionEvidence(whole, found.distance(), said));
        }
        return nearest;
    }

    /** Returns the names of surfaces that are alike; where none is, the few that come nearest. */
    private static Set<String> names(Inquiry inquiry, TrialIndex index) {
        record Alike(String key, double likeness) {}
        List<Alike> all = new ArrayList<>();
        for (Map.Entry<String, String> name : index.materials().entrySet()) {
            all.add(new Alike(name.getKey(), NameLikeness.of(inquiry.material(), name.getValue())));
        }
        all.sort(Comparator.comparingDouble(Alike::likeness).reversed());
        Set<String> names = new HashSet<>();
        for (Alike one : all) {
            int most = all.get(0).likeness() >= ALIKE ? MOST_NAMES : FEW_NAMES;
            if (names.size() < most && (one.likeness() >= ALIKE || most == FEW_NAMES)) {
                names.add(one.key());
            }
        }
        return names;
    }
}
