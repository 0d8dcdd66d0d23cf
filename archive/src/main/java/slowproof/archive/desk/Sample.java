package slowproof.archive.desk;

import java.time.Instant;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * A sample as its events leave it. Events: {@code noted} with everything that was typed (again when it was corrected),
 * {@code linked} and {@code unlinked} with a trial, {@code returned} with the day it went back, {@code kept} when it came
 * again or stays here after all.
 *
 * @param id id of the card
 * @param number its number
 * @param notedAt when it was first noted
 * @param typed what was typed, by name of the field, see {@link #FIELDS}
 * @param returned day it went back, ISO 8601, empty while it is here
 * @param trials trials that ran on it
 */
public record Sample(
        String id, int number, Instant notedAt, Map<String, String> typed, String returned, Set<String> trials) {
    /** Kind of the event that carries what was typed. */
    public static final String NOTED = "noted";

    /** Kind of the event that links a trial. */
    public static final String LINKED = "linked";

    /** Kind of the event that takes a link back. */
    public static final String UNLINKED = "unlinked";

    /** Kind of the event that says it went back. */
    public static final String RETURNED = "returned";

    /** Kind of the event that says it is here again. */
    public static final String KEPT = "kept";

    /** Names of the fields of a sample. */
    public static final List<String> FIELDS =
            List.of("sender", "material", "batch", "side", "grain", "amount", "storage", "received", "due", "text");

    /** Copies the collections. */
    public Sample {
        typed = Map.copyOf(typed);
        trials = Set.copyOf(trials);
    }

    /**
     * Adds up the events of a sample.
     *
     * @param id id of the card
     * @param number its number
     * @param events all of them, in order, at least one
     */
    public static Sample of(String id, int number, List<CardEvent> events) {
        Map<String, String> typed = Map.of();
        Set<String> trials = new LinkedHashSet<>();
        String returned = "";
        for (CardEvent event : events) {
            switch (event.kind()) {
                case NOTED -> typed = event.fields();
                case LINKED -> trials.add(event.text("trial"));
                case UNLINKED -> trials.remove(event.text("trial"));
                case RETURNED -> returned = event.text("day");
                case KEPT -> returned = "";
                default -> throw new IllegalStateException("a sample has no event " + event.kind());
            }
        }
        return new Sample(id, number, events.get(0).at(), typed, returned, trials);
    }

    /** Returns what was typed into a field, empty for nothing. */
    public String field(String name) {
        return typed.getOrDefault(name, "");
    }

    CardFace face() {
        String title = String.join(", ", field("material"), field("sender")).replaceAll("^, |, $", "");
        String words = String.join("\n", typed.values());
        return new CardFace(returned.isEmpty(), field("due"), title, words, trials);
    }
}
