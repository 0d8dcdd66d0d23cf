package slowproof.report.chart;

/** What a colour means. Never the only carrier of its meaning: symbol, dash or hatch says the same. */
public enum Tone {
    /** Text and frames. */
    INK("ink", 0x1b1f23),
    /** The one result that the chart is about. */
    ACCENT("accent", 0x1b4f8a),
    /** Holds the limit. */
    GOOD("good", 0x00598f),
    /** Fails the limit. */
    BAD("bad", 0xa83a00),
    /** Not decided. */
    OPEN("open", 0x6f5600),
    /** In the background. */
    MUTED("muted", 0x54595f),
    /** First of several things side by side; the others follow. */
    FIRST("first", 0x0072b2),
    /** Second of several. */
    SECOND("second", 0xc25000),
    /** Third of several. */
    THIRD("third", 0x00805d),
    /** Fourth of several. */
    FOURTH("fourth", 0xa3477f);

    private final String key;
    private final int rgb;

    Tone(String key, int rgb) {
        this.key = key;
        this.rgb = rgb;
    }

    /** Returns the name that pages know it by. */
    public String key() {
        return key;
    }

    /** Returns its colour on white paper, red, green and blue a byte each. */
    public int rgb() {
        return rgb;
    }
}
