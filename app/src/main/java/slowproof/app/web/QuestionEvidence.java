package slowproof.app.web;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import slowproof.archive.Near;
import slowproof.archive.TrialIndex;
import slowproof.archive.Tried;
import slowproof.trial.evidence.Assessment;
import slowproof.trial.evidence.Distance;
import slowproof.trial.evidence.Inquiry;
import slowproof.trial.evidence.NameLikeness;

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

    /** A surface with its distance. */
    record Found(Near near, Distance distance) {
        /** The nearest first. */
        static final Comparator<Found> ORDER = Comparator.<Found>comparingDouble(
                        found -> found.distance().total())
                .thenComparing(Found::near, Near.LAST_CHANGED_FIRST);
    }

    /**
     * Returns the nearest evidence, the nearest first; among equally near ones the last changed.
     *
     * <p>Names are looked at from the most alike on. A name alone puts everything under it at a distance; once the nearest found
     * lie below that of the next name, nothing under it or a later one can come before them. So the answer is that over
     * every trial, and most are never read.
     */
    static List<QuestionEvidence> of(Inquiry inquiry, TrialIndex index) {
        List<Found> nearest = List.of();
        for (Map.Entry<Double, Set<String>> names : names(inquiry, index).entrySet()) {
            double likeness = names.getKey();
            if (nearest.size() == SHOWN && nearest.get(SHOWN - 1).distance().total() < Distance.atLeast(likeness)) {
                break;
            }
            List<Found> all = new ArrayList<>(nearest);
            for (Near near : index.near(names.getValue())) {
                all.add(new Found(near, Distance.of(inquiry, near.evidence(), likeness)));
            }
            nearest = all.stream().sorted(Found.ORDER).limit(SHOWN).toList();
        }
        List<QuestionEvidence> found = new ArrayList<>();
        for (Found one : nearest) {
            index.tried(one.near().trial(), one.near().place())
                    .ifPresent(tried -> found.add(new QuestionEvidence(
                            tried,
                            one.distance(),
                            Assessment.of(inquiry, tried.surface().evidence()))));
        }
        return found;
    }

    /** Returns the names under which surfaces were tried by their likeness to the one asked, the most alike first. */
    private static Map<Double, Set<String>> names(Inquiry inquiry, TrialIndex index) {
        Map<Double, Set<String>> names = new TreeMap<>(Comparator.reverseOrder());
        index.materials()
                .forEach((key, name) -> names.computeIfAbsent(
                                NameLikeness.of(inquiry.material(), name), likeness -> new HashSet<>())
                        .add(key));
        return names;
    }
}
