package slowproof.archive.sheet;

import java.util.List;
import slowproof.archive.typed.Typed;

/**
 * One series of moves, as typed.
 *
 * @param seq number of its event
 * @param material surface, empty when the trial's surface is meant
 * @param speed programmed speed
 * @param acceleration programmed acceleration, empty when the trial's is meant
 * @param from position of the reference before the first move
 * @param to position of the reference after it
 * @param onward true when every move goes on in the same direction, false when it comes back
 * @param readings readings in order
 */
public record SheetSeries(
        long seq,
        String material,
        Typed speed,
        Typed acceleration,
        Typed from,
        Typed to,
        boolean onward,
        List<SheetReading> readings) {
    /** Copies the readings. */
    public SheetSeries {
        readings = List.copyOf(readings);
    }

    /** Returns the readings that end a move. */
    public List<SheetReading> moves() {
        return readings.stream().filter(reading -> !reading.start()).toList();
    }
}
