package slowproof.trial.compare;

import java.util.List;
import slowproof.trial.Reference;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Findings;

/**
 * One line of a comparison: the results of one trial on one material with one set-up.
 *
 * @param trial what tells one trial from another
 * @param material material
 * @param setup name of the set-up, empty when unnamed
 * @param reference what the sensor was compared with
 * @param levels results, speed ascending
 */
public record Line(String trial, String material, String setup, Reference reference, List<Level> levels) {
    /** Copies the list. */
    public Line {
        levels = List.copyOf(levels);
    }

    /** Returns the lines of a trial, in the order of its conditions. */
    public static List<Line> of(String trial, Findings findings) {
        return findings.materials().stream()
                .flatMap(material -> {
                    List<Condition> leading = findings.leading(material.material());
                    return leading.stream()
                            .map(condition -> condition.key().setup())
                            .distinct()
                            .map(setup -> new Line(
                                    trial,
                                    material.material(),
                                    setup,
                                    findings.trial().reference(),
                                    leading.stream()
                                            .filter(condition ->
                                                    condition.key().setup().equals(setup))
                                            .map(Level::of)
                                            .toList()));
                })
                .toList();
    }

    /**
     * Returns true when both were measured against one and the same reference, so that its error is in both alike and
     * cancels in a difference: within a trial always; between trials when both name it and tell the same of it.
     */
    public boolean sharesReference(Line other) {
        return trial.equals(other.trial)
                || (!reference.name().isBlank() && reference.hasUncertainty() && reference.equals(other.reference));
    }
}
