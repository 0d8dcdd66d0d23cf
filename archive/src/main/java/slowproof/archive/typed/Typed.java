package slowproof.archive.typed;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import slowproof.archive.typed.NotUnderstoodException.Why;

/**
 * A text as typed, with the habits it was typed under. The text stays as it is; the methods say what it means.
 *
 * @param text the text
 * @param mark decimal mark in use when it was typed
 * @param lengthUnit unit of a length without a typed unit
 * @param speedUnit unit of a speed without a typed unit
 */
public record Typed(String text, DecimalMark mark, LengthUnit lengthUnit, SpeedUnit speedUnit) {
    /** Nothing typed. */
    public static final Typed NOTHING = new Typed("", DecimalMark.DOT, LengthUnit.MM, SpeedUnit.MM_PER_S);

    private static final String NUMBER = "[+\\-−]?[0-9.,'’ \\u00a0\\u202f]*?[0-9][.,]?";
    private static final String UNIT = "[A-Za-zµ\"″%°]+(?:\\s*/\\s*[A-Za-z]+[²2]?)?";
    private static final Pattern FORM = Pattern.compile("(?<first>" + NUMBER
            + "?)(?:\\s*(?:-|–|—|\\.\\.|…|to|bis)\\s*(?<second>" + NUMBER + "?))?\\s*(?<unit>" + UNIT + ")?");
    private static final int LONGEST = 60;
    private static final BigDecimal LARGEST = new BigDecimal("1e9");

    /** Returns true when nothing but spaces was typed. */
    public boolean isEmpty() {
        return text.isBlank();
    }

    /**
     * Returns the length it means. A range such as 600.2-600.4 means its middle.
     *
     * @throws NotUnderstoodException if it is no length
     */
    public Length length() throws NotUnderstoodException {
        Parts parts = parts();
        LengthUnit unit = lengthUnit;
        if (!parts.unit.isEmpty()) {
            unit = LengthUnit.spelled(parts.unit).orElseThrow(() -> refused(Why.UNKNOWN_UNIT));
        }
        BigDecimal low = unit.toMm(parts.first);
        BigDecimal high = unit.toMm(parts.second);
        BigDecimal middle = low.add(high).divide(BigDecimal.valueOf(2));
        double step = unit.millimetres().doubleValue() * Math.pow(10, -parts.first.scale());
        return new Length(middle, high.subtract(low).abs().doubleValue(), step);
    }

    /**
     * Returns the speed it means in mm/s.
     *
     * @throws NotUnderstoodException if it is no speed above zero
     */
    public double speedMmPerS() throws NotUnderstoodException {
        Parts parts = parts();
        SpeedUnit unit = speedUnit;
        if (!parts.unit.isEmpty()) {
            unit = SpeedUnit.spelled(parts.unit).orElseThrow(() -> refused(Why.UNKNOWN_UNIT));
        }
        double speed = parts.single(this).doubleValue() * unit.mmPerS();
        if (!(speed > 0)) {
            throw refused(Why.NOT_POSITIVE);
        }
        // a speed typed in m/min is as exact as its digits: no binary dust in names and files
        return BigDecimal.valueOf(speed)
                .setScale(6, RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .doubleValue();
    }

    /**
     * Returns the bare number it means.
     *
     * @param unit unit that may stand behind it, such as "%"; empty for none
     * @throws NotUnderstoodException if it is no number
     */
    public BigDecimal number(String unit) throws NotUnderstoodException {
        Parts parts = parts();
        if (!parts.unit.isEmpty() && !parts.unit.replace(" ", "").equalsIgnoreCase(unit.replace(" ", ""))) {
            throw refused(Why.UNKNOWN_UNIT);
        }
        return parts.single(this);
    }

    private NotUnderstoodException refused(Why why) {
        return new NotUnderstoodException(why, text.strip());
    }

    private Parts parts() throws NotUnderstoodException {
        String stripped = text.strip();
        if (stripped.isEmpty()) {
            throw refused(Why.EMPTY);
        }
        Matcher form = FORM.matcher(stripped);
        if (stripped.length() > LONGEST || !form.matches()) {
            throw refused(Why.NOT_A_NUMBER);
        }
        BigDecimal first = decimal(form.group("first"));
        String later = form.group("second");
        BigDecimal second = later == null ? first : decimal(later);
        String unit = Optional.ofNullable(form.group("unit")).orElse("").strip();
        return new Parts(first, second, later != null, unit);
    }

    private BigDecimal decimal(String number) throws NotUnderstoodException {
        String plain = number.replaceAll("[\\s'’\\u00a0\\u202f]", "").replace('−', '-');
        int dots = count(plain, '.');
        int commas = count(plain, ',');
        char decimal = mark.mark();
        if (dots > 0 && commas > 0) {
            decimal = plain.lastIndexOf('.') > plain.lastIndexOf(',') ? '.' : ',';
        } else if (count(plain, mark.mark()) == 0 && count(plain, mark.other()) == 1) {
            if (plain.matches("[+-]?[1-9][0-9]{0,2}[.,][0-9]{3}")) {
                throw refused(Why.AMBIGUOUS_MARK);
            }
            decimal = mark.other();
        }
        char grouping = decimal == '.' ? ',' : '.';
        int at = plain.indexOf(decimal);
        String whole = at < 0 ? plain : plain.substring(0, at);
        String rest = at < 0 ? "" : plain.substring(at + 1);
        String group = Pattern.quote(String.valueOf(grouping));
        if (whole.indexOf(grouping) >= 0) {
            if (!whole.matches("[+-]?[0-9]{1,3}(" + group + "[0-9]{3})+")) {
                throw refused(Why.NOT_A_NUMBER);
            }
            whole = whole.replace(String.valueOf(grouping), "");
        }
        if (!rest.matches("[0-9]*") || !whole.matches("[+-]?[0-9]*")) {
            throw refused(Why.NOT_A_NUMBER);
        }
        BigDecimal value;
        try {
            value = new BigDecimal(rest.isEmpty() ? whole : whole + "." + rest);
        } catch (NumberFormatException e) {
            throw refused(Why.NOT_A_NUMBER);
        }
        if (value.abs().compareTo(LARGEST) >= 0 || value.scale() > 9) {
            throw refused(Why.TOO_LARGE);
        }
        return value;
    }

    private static int count(String text, char wanted) {
        return (int) text.chars().filter(c -> c == wanted).count();
    }

    private record Parts(BigDecimal first, BigDecimal second, boolean range, String unit) {
        BigDecimal single(Typed typed) throws NotUnderstoodException {
            if (range) {
                throw typed.refused(Why.NOT_A_NUMBER);
            }
            return first;
        }
    }
}
