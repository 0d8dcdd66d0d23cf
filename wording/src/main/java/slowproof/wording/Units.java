package slowproof.wording;

import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;

/**
 * The units a reader prefers. Inside, everything is mm and mm/s; this is the only place that turns them into
 * something else.
 *
 * @param length unit of lengths
 * @param speed unit of speeds
 */
public record Units(Length length, Speed speed) {
    /** Millimetres and millimetres per second, as in the files. */
    public static final Units MILLIMETRES = new Units(Length.MM, Speed.MM_PER_S);

    private static final int MOMENT_DECIMALS = 3;
    private static final int LENGTH_DECIMALS = 4;
    private static final int SPEED_DIGITS = 5;
    private static final int SHARE_DIGITS = 3;

    /** Units of length. */
    public enum Length {
        MM("mm", 1),
        M("m", 1000),
        INCH("in", 25.4);

        private final String symbol;
        private final double mm;

        Length(String symbol, double mm) {
            this.symbol = symbol;
            this.mm = mm;
        }

        /** Returns the symbol. */
        public String symbol() {
            return symbol;
        }

        /** Returns a length of so many mm in this unit. */
        public double fromMm(double lengthMm) {
            return lengthMm / mm;
        }
    }

    /** Units of speed. */
    public enum Speed {
        MM_PER_S("mm/s", 1, 1),
        M_PER_MIN("m/min", 60, 1000),
        FT_PER_MIN("ft/min", 60, 304.8);

        private final String symbol;
        private final double times;
        private final double over;

        Speed(String symbol, double times, double over) {
            this.symbol = symbol;
            this.times = times;
            this.over = over;
        }

        /** Returns the symbol. */
        public String symbol() {
            return symbol;
        }

        /** Returns a speed of so many mm/s in this unit. */
        public double fromMmPerS(double speedMmPerS) {
            return speedMmPerS * times / over;
        }
    }

    /** Returns the unit for errors and other small lengths: inches stay inches, everything else is mm. */
    public Length smallLength() {
        return length == Length.INCH ? Length.INCH : Length.MM;
    }

    /** Returns a speed without its unit. */
    public String speedNumber(double speedMmPerS, Numbers numbers) {
        return numbers.plain(speed.fromMmPerS(speedMmPerS), SPEED_DIGITS);
    }

    /** Returns a quantity with its unit, in the units preferred. */
    String written(Quantity quantity, Numbers numbers) {
        double value = quantity.value();
        return switch (quantity.unit()) {
            case MM -> small(value, numbers);
            case MM_PER_S -> speedNumber(value, numbers) + " " + speed.symbol();
            case S -> duration(value, numbers);
            case MOMENT ->
                numbers.upTo(value, MOMENT_DECIMALS) + " " + quantity.unit().symbol();
            case DEGREE -> numbers.plain(value) + Unit.DEGREE.symbol();
            case PERCENT, PPM ->
                numbers.plain(value, SHARE_DIGITS) + " " + quantity.unit().symbol();
            case ONE -> numbers.plain(value);
            default -> numbers.plain(value) + " " + quantity.unit().symbol();
        };
    }

    private String small(double lengthMm, Numbers numbers) {
        Length unit = smallLength();
        int decimals = unit == Length.INCH ? LENGTH_DECIMALS + 1 : LENGTH_DECIMALS;
        return numbers.upTo(unit.fromMm(lengthMm), decimals) + " " + unit.symbol();
    }

    private static String duration(double seconds, Numbers numbers) {
        if (Math.abs(seconds) >= 2 * 3600) {
            return numbers.upTo(seconds / 3600, 1) + " h";
        }
        return Math.abs(seconds) >= 2 * 60
                ? numbers.upTo(seconds / 60, 0) + " min"
                : numbers.plain(seconds) + " " + Unit.S.symbol();
    }
}
