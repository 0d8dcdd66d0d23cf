package slowproof.files.log;

import java.util.Map;

/**
 * Which column of a log holds what, as far as the trial says; the rest is recognised by headings. A mapping that
 * is not empty is complete: nothing else is recognised.
 *
 * @param columns place of each quantity
 */
public record ColumnMapping(Map<ColumnRole, ColumnSource> columns) {
    /** Everything is recognised. */
    public static final ColumnMapping RECOGNISED = new ColumnMapping(Map.of());

    /** Copies the map. */
    public ColumnMapping {
        columns = Map.copyOf(columns);
    }
}
