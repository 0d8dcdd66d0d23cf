package slowproof.trial;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.metrology.conformity.DecisionRule;

/**
 * A trial as recorded: who was compared with what, where, and every reading. Evaluating it changes nothing in it.
 *
 * @param title title
 * @param sensor sensor under trial
 * @param reference what it is compared with
 * @param limit largest permissible error, or null when nobody has stated one
 * @param stated what the maker promises, or null
 * @param setup set-up of the bench
 * @param rule decision rule
 * @param mode how the counter was handled
 * @param series typed readings, in file order
 * @param recorded passes found in recordings, in file order
 * @param pieces cut pieces or taped lengths, in file order
 * @param exclusions passes that a person left out
 */
public record Trial(
        String title,
        Sensor sensor,
        Reference reference,
        @Nullable Limit limit,
        @Nullable StatedAccuracy stated,
        Setup setup,
        DecisionRule rule,
        ReadingMode mode,
        List<Series> series,
        List<RecordedPass> recorded,
        List<Piece> pieces,
        List<Exclusion> exclusions) {
    /** Copies the lists. */
    public Trial {
        series = List.copyOf(series);
        recorded = List.copyOf(recorded);
        pieces = List.copyOf(pieces);
        exclusions = List.copyOf(exclusions);
    }

    /** Returns the same trial with other exclusions. */
    public Trial excluding(List<Exclusion> others) {
        return new Trial(title, sensor, reference, limit, stated, setup, rule, mode, series, recorded, pieces, others);
    }
}
