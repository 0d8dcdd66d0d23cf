package slowproof.trial.note;

import java.util.Objects;

/**
 * A number with its unit, for texts.
 *
 * @param value the number, in {@code unit}
 * @param unit the unit
 */
public record Quantity(double value, Unit unit) {
    /** Checks the parts. */
    public Quantity {
        Objects.requireNonNull(unit, "unit");
    }

    /** Returns a length in mm. */
    public static Quantity mm(double value) {
        return new Quantity(value, Unit.MM);
    }

    /** Returns a speed in mm/s. */
    public static Quantity mmPerS(double value) {
        return new Quantity(value, Unit.MM_PER_S);
    }

    /** Returns a moment of a recording, in s of its time axis. */
    public static Quantity moment(double timeS) {
        return new Quantity(timeS, Unit.MOMENT);
    }

    /** Returns a share or relative error in percent. */
    public static Quantity percent(double value) {
        return new Quantity(value, Unit.PERCENT);
    }
}
