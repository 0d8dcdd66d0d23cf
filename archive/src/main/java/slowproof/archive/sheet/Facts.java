package slowproof.archive.sheet;

import java.util.EnumMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.archive.typed.DecimalMark;
import slowproof.archive.typed.LengthUnit;
import slowproof.archive.typed.NotUnderstoodException;
import slowproof.archive.typed.NotUnderstoodException.Why;
import slowproof.archive.typed.SpeedUnit;
import slowproof.archive.typed.Typed;

/** The facts of a trial, as typed. A text that means no number counts as absent; {@link #check} tells beforehand. */
public final class Facts {
    private final Map<FactName, Typed> facts;

    Facts(Map<FactName, Typed> facts) {
        this.facts = facts.isEmpty() ? Map.of() : new EnumMap<>(facts);
    }

    /** Returns a fact as typed, {@link Typed#NOTHING} when it was never noted. */
    public Typed typed(FactName name) {
        return facts.getOrDefault(name, Typed.NOTHING);
    }

    /** Returns the text of a fact without spaces around it, empty when it was never noted. */
    public String text(FactName name) {
        return typed(name).text().strip();
    }

    /** Returns name and serial number of the sensor, empty when neither was noted. */
    public String sensor() {
        return (text(FactName.SENSOR_NAME) + " " + text(FactName.SENSOR_SERIAL)).strip();
    }

    /** Returns the chosen word, the first of the choices when none was chosen. */
    public String choice(FactName name) {
        String text = text(name);
        return name.choices().contains(text) ? text : name.choices().get(0);
    }

    /** Returns true when readings are taken with the counter set to zero before each move. */
    public boolean zeroed() {
        return choice(FactName.READING_MODE).equals("zeroed");
    }

    /** Returns how numbers are typed now. */
    public Typed habits() {
        return new Typed(
                "",
                DecimalMark.of(choice(FactName.DECIMAL_MARK)),
                LengthUnit.of(choice(FactName.LENGTH_UNIT)),
                SpeedUnit.of(choice(FactName.SPEED_UNIT)));
    }

    /** Returns a number, a length in mm or a speed in mm/s; null when it was never noted. */
    public @Nullable Double value(FactName name) {
        Typed typed = typed(name);
        if (typed.isEmpty()) {
            return null;
        }
        try {
            return check(name, typed);
        } catch (NotUnderstoodException e) {
            return null;
        }
    }

    /**
     * Returns the number a fact means: a length in mm, a speed in mm/s, else in the unit of the fact; 0 for texts and choices.
     *
     * @throws NotUnderstoodException if it means no number, or one that this fact cannot have
     */
    public static double check(FactName name, Typed typed) throws NotUnderstoodException {
        double value = switch (name.kind()) {
            case TEXT -> 0;
            case CHOICE -> {
                if (!name.choices().contains(typed.text().strip())) {
                    throw new NotUnderstoodException(Why.NOT_A_NUMBER, typed.text());
                }
                yield 0;
            }
            case NUMBER, NOT_NEGATIVE, POSITIVE -> typed.number(name.unit()).doubleValue();
            case LENGTH_NOT_NEGATIVE, LENGTH_POSITIVE -> typed.length().mm();
            case SPEED -> typed.speedMmPerS();
        };
        boolean mustBePositive = name.kind() == FactName.Kind.POSITIVE || name.kind() == FactName.Kind.LENGTH_POSITIVE;
        if (mustBePositive && !(value > 0)) {
            throw new NotUnderstoodException(Why.NOT_POSITIVE, typed.text());
        }
        boolean mayBeNegative = name.kind() == FactName.Kind.NUMBER;
        if (!mayBeNegative && !(value >= 0)) {
            throw new NotUnderstoodException(Why.NEGATIVE, typed.text());
        }
        return value;
    }

    Iterable<Map.Entry<FactName, Typed>> all() {
        return facts.entrySet();
    }
}
