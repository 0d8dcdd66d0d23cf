package slowproof.trial.slips;

import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;

/** A move that would take hours: most likely a speed in m/s under a heading in mm/s. */
final class SlowMove {
    private static final double LONGEST_S = 3600;

    private SlowMove() {}

    static boolean suspected(double lengthMm, double speedMmPerS) {
        return lengthMm / speedMmPerS > LONGEST_S;
    }

    /** Returns how long the move takes, in hours. */
    static Quantity hours(double lengthMm, double speedMmPerS) {
        return new Quantity(lengthMm / speedMmPerS / 3600, Unit.HOUR);
    }
}
