package slowproof.app.web;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Pass;
import slowproof.wording.Numbers;
import slowproof.wording.Units;
import slowproof.wording.Wording;

/**
 * Writes figures for the pages: the reader's decimal sign and units, as many digits as the figure is worth.
 *
 * @param wording language and units of the reader
 * @param zone zone of the times shown
 */
public record Show(Wording wording, ZoneId zone) {
    private static final int PERCENT_DECIMALS = 3;
    private static final int MOST_DECIMALS = 4;
    /** An inch figure needs two decimals more than a millimetre figure to be as fine. */
    private static final int INCH_DECIMALS = 2;

    /** A number, a blank, and a unit that belongs to it. */
    private static final Pattern FIGURE = Pattern.compile("(\\d) (?=(?:mm|m|in|s|ppm|m/min|%)(?![\\p{L}]))");

    /** Returns a sentence in which no line ends between a number and its unit. */
    public static String together(String sentence) {
        return FIGURE.matcher(sentence).replaceAll("$1\u00a0");
    }

    /** Returns the symbol of errors and other small lengths: mm or in. */
    public String lengthUnit() {
        return wording.units().smallLength().symbol();
    }

    /** Returns the symbol of speeds. */
    public String speedUnit() {
        return wording.units().speed().symbol();
    }

    /** Returns a signed error in the reader's unit of small lengths, without the unit. */
    public String error(double errorMm, int decimals) {
        return numbers().signed(inUnit(errorMm), decimals(decimals));
    }

    /** Returns the error of a pass, as fine as its readings. */
    public String error(Pass pass) {
        return error(pass.errorMm(), pass.decimals());
    }

    /** Returns a length in the reader's unit of small lengths, without the unit. */
    public String length(double lengthMm, int decimals) {
        return numbers().fixed(inUnit(lengthMm), decimals(decimals));
    }

    /** Returns a length in the reader's unit of small lengths with no more digits than it needs, without the unit. */
    public String plainLength(double lengthMm) {
        return numbers().upTo(inUnit(lengthMm), decimals(MOST_DECIMALS));
    }

    private double inUnit(double mm) {
        return wording.units().smallLength().fromMm(mm);
    }

    private int decimals(int ofMm) {
        int finest = Math.min(ofMm, MOST_DECIMALS);
        return wording.units().smallLength() == Units.Length.INCH ? finest + INCH_DECIMALS : finest;
    }

    /** Returns a signed relative error in percent, without the sign of percent. */
    public String percent(double ratio) {
        return numbers().signed(100 * ratio, PERCENT_DECIMALS);
    }

    /** Returns the mean error of a condition in percent, to two digits of its uncertainty. */
    public String mean(Condition condition) {
        return numbers().signed(100 * condition.meanError(), percentDecimals(condition));
    }

    /** Returns the expanded uncertainty of a condition in percent. */
    public String expanded(Condition condition) {
        return condition.expandedUncertainty() > 0
                ? numbers().fixed(100 * condition.expandedUncertainty(), percentDecimals(condition))
                : wording.text("figure.unknown");
    }

    private static int percentDecimals(Condition condition) {
        double expanded = 100 * condition.expandedUncertainty();
        return expanded > 0 ? Math.max(0, Math.min(6, Numbers.decimalsFor(expanded))) : PERCENT_DECIMALS;
    }

    /** Returns a ratio in percent, or the dash of an absent figure. */
    public String percentOrDash(@Nullable Double ratio) {
        return ratio == null ? wording.text("figure.absent") : numbers().fixed(100 * ratio, PERCENT_DECIMALS);
    }

    /** Returns a probability in percent, or the dash of an absent figure. */
    public String probability(@Nullable Double probability) {
        return probability == null ? wording.text("figure.absent") : numbers().probabilityPercent(probability);
    }

    /** Returns a probability of a test in percent with two digits, or that it is next to nothing. */
    public String chance(double probability) {
        double percent = 100 * probability;
        return percent < 0.01 ? "< " + numbers().fixed(0.01, 2) : numbers().plain(percent, 2);
    }

    /** Returns a number with at most so many significant digits. */
    public String number(double value, int digits) {
        return numbers().plain(value, digits);
    }

    /** Returns a speed without its unit. */
    public String speed(double speedMmPerS) {
        return wording.units().speedNumber(speedMmPerS, numbers());
    }

    /** Returns a speed with its unit. */
    public String speedWithUnit(double speedMmPerS) {
        return speed(speedMmPerS) + "\u00a0" + speedUnit();
    }

    /** Returns a date with the time. */
    public String time(Instant at) {
        String form = german() ? "d. MMMM yyyy, HH:mm" : "d MMMM yyyy, HH:mm";
        return DateTimeFormatter.ofPattern(form, german() ? Locale.GERMAN : Locale.UK)
                .format(at.atZone(zone));
    }

    /** Returns the date. */
    public String day(Instant at) {
        String form = german() ? "d. MMM yyyy" : "d MMM yyyy";
        return DateTimeFormatter.ofPattern(form, german() ? Locale.GERMAN : Locale.UK)
                .format(at.atZone(zone));
    }

    /** Returns a day that is written as ISO 8601. */
    public String day(String day) {
        return day(LocalDate.parse(day).atStartOfDay(zone).toInstant());
    }

    /** Returns the time of day. */
    public String clock(Instant at) {
        return DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT).format(at.atZone(zone));
    }

    /** Returns a class name of the style sheet for an answer. */
    public String style(Answer answer) {
        return styleOf(answer);
    }

    /** Returns the same for those who have no reader. */
    static String styleOf(Answer answer) {
        return switch (answer) {
            case CONFORMS -> "good";
            case DOES_NOT_CONFORM -> "bad";
            case UNDECIDED -> "open";
            case SCREENING_ONLY -> "none";
        };
    }

    /** Returns the sign drawn beside an answer, so that colour is never alone. */
    public String sign(Answer answer) {
        return switch (answer) {
            case CONFORMS -> "\u25cf";
            case DOES_NOT_CONFORM -> "\u2715";
            case UNDECIDED -> "\u25d1";
            case SCREENING_ONLY -> "\u25cb";
        };
    }

    private boolean german() {
        return wording.locale().getLanguage().equals("de");
    }

    private Numbers numbers() {
        return wording.numbers();
    }
}
