package slowproof.archive.desk;

import java.util.List;
import java.util.Set;

/**
 * What lists show of a card, derived from its events.
 *
 * @param open whether something is still to be done
 * @param due day by which it is to be done, ISO 8601 (2026-03-31), empty for none
 * @param title what it is, in one line
 * @param words everything a person may look for
 * @param trials ids of the trials that belong to it
 */
public record CardFace(boolean open, String due, String title, String words, Set<String> trials) {
    /** Copies the set. */
    public CardFace {
        trials = Set.copyOf(trials);
    }

    /**
     * Returns what lists show of a card.
     *
     * @param kind what it is
     * @param events all of its events, in order, at least one
     */
    public static CardFace of(CardKind kind, List<CardEvent> events) {
        return switch (kind) {
            case QUESTION -> Question.of("", 0, events).face();
            case SAMPLE -> Sample.of("", 0, events).face();
        };
    }
}
