package slowproof.archive.sheet;

import java.time.Instant;
import slowproof.archive.typed.Typed;

/**
 * One reading at standstill, as typed.
 *
 * @param seq number of its event
 * @param at when it was recorded
 * @param start true for the reading before the first move of a series
 * @param reference position of the reference, empty when it is the target of the move
 * @param reading reading of the counter
 * @param comment remark on the move that led to it, empty for none
 * @param spoiled why that move is left out, empty when it counts
 */
public record SheetReading(
        long seq, Instant at, boolean start, Typed reference, Typed reading, String comment, String spoiled) {
    SheetReading withComment(String text) {
        return new SheetReading(seq, at, start, reference, reading, text, spoiled);
    }

    SheetReading withSpoiled(String text) {
        return new SheetReading(seq, at, start, reference, reading, comment, text);
    }
}
