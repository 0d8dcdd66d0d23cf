package slowproof.report.answer;

import com.openhtmltopdf.extend.FSTextBreaker;
import java.text.BreakIterator;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Where a line of a PDF may end: between words, but not within a number, nor between a number and its sign or unit.
 * It does so without an element of its own around each figure: such elements are painted after their line, so that
 * the text would come out of the file in another order than it is read.
 */
final class FigureBreaks implements FSTextBreaker {
    /** A number with its sign, its unit, and what it is the value or the bound of. */
    static final Pattern FIGURE = Pattern.compile(
            "(?:\\b[kU]\\s=\\s|[<>\u2265\u2264]\\s)?[+\u2212\u00b1]?\\(?\\b(?<!\\p{L}-)\\d+(?:[.,:]\\d+)*(?![\\p{L}\\d])(?:\\s(?:%|mm/s|mm|ppm|m/min|m|s|in)(?![\\p{L}/]))?");

    private final BreakIterator lines = BreakIterator.getLineInstance(Locale.ROOT);
    private Matcher figure = FIGURE.matcher("");
    private boolean more;

    @Override
    public void setText(String text) {
        lines.setText(text);
        figure = FIGURE.matcher(text);
        more = figure.find();
    }

    @Override
    public int next() {
        int end = lines.next();
        while (end != BreakIterator.DONE && isWithinFigure(end)) {
            end = lines.next();
        }
        return end;
    }

    /** Places come in ascending order, so that each figure is looked at once. */
    private boolean isWithinFigure(int place) {
        while (more && figure.end() <= place) {
            more = figure.find();
        }
        return more && figure.start() < place;
    }
}
