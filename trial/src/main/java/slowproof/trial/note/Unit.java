package slowproof.trial.note;

/** Units of the quantities that reach a reader. Inside, lengths are mm, times s, speeds mm/s. */
public enum Unit {
    MM("mm"),
    MM_PER_S("mm/s"),
    MM_PER_S2("mm/s²"),
    MM_PER_SQRT_M("mm/√m"),
    MM_PER_MIN("mm/min"),
    PERCENT("%"),
    PPM("ppm"),
    S("s"),
    /** A moment on the time axis of a recording: always in seconds, since it is to be found there. */
    MOMENT("s"),
    MS("ms"),
    HOUR("h"),
    HZ("Hz"),
    DEGREE("°"),
    CELSIUS("°C"),
    ONE("");

    private final String symbol;

    Unit(String symbol) {
        this.symbol = symbol;
    }

    /** Returns the symbol printed after a number, empty for the dimensionless unit. */
    public String symbol() {
        return symbol;
    }
}
