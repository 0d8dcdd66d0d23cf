package slowproof.files.log;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.trial.input.ProblemCode;

/**
 * Recognises the layout of a log from its beginning. A separator is judged by how many lines it cuts in the same
 * number of cells, half of them or more numbers or time stamps; lines above the first such line are headings, a row
 * of units, or a preamble. Quotes hide a separator, so numbers may have decimal commas between commas too.
 */
final class LayoutFinder {
    private static final char[] SEPARATORS = {'\t', ';', ',', '|', ' '};
    private static final char USUAL_COMMENT = '#';

    /** Lines that a separator is judged by, the last ones, since a preamble may be long. */
    private static final int JUDGED = 400;

    /** One line that is neither blank nor a comment. */
    private record Line(long number, String text) {}

    /** What a separator makes of the lines. */
    private record Trial(char separator, int cells, double score) {}

    private final Dialect dialect;
    private final char comment;
    private final List<Line> lines = new ArrayList<>();

    private LayoutFinder(String sample, Dialect dialect) {
        this.dialect = dialect;
        this.comment = dialect.comment() == null ? USUAL_COMMENT : dialect.comment();
        long number = 0;
        for (String text : (Iterable<String>) sample.lines()::iterator) {
            number++;
            if (!text.isBlank() && text.charAt(0) != comment) {
                lines.add(new Line(number, text));
            }
        }
    }

    /**
     * Returns the layout, or null with a problem noted when there is none.
     *
     * @param sample beginning of the log, whole lines
     * @param dialect what is known of it
     * @param problems where to note problems
     */
    static @Nullable Layout find(String sample, Dialect dialect, LogProblems problems) {
        LayoutFinder finder = new LayoutFinder(sample, dialect);
        if (finder.lines.isEmpty()) {
            problems.add(ProblemCode.FILE_EMPTY, 0, 0, "");
            return null;
        }
        Trial best = finder.bestSeparator();
        ForeignKind kind = best.cells() < 2 ? MarkedText.kind(sample) : null;
        if (kind != null) {
            problems.add(ProblemCode.LOG_FOREIGN, 0, 0, "", kind.key());
            return null;
        }
        if (best.cells() < 2) {
            problems.add(finder.codeWithoutData(), finder.lines.get(0).number(), 0, "");
            return null;
        }
        return finder.layout(best, problems);
    }

    private ProblemCode codeWithoutData() {
        return lines.size() == 1 ? ProblemCode.HEADER_ONLY : ProblemCode.LOG_NO_ROWS;
    }

    private Trial bestSeparator() {
        char[] candidates = dialect.separator() == null ? SEPARATORS : new char[] {dialect.separator()};
        Trial best = new Trial(candidates[0], 0, 0);
        for (char separator : candidates) {
            Trial trial = judge(separator);
            if (trial.score() > best.score() * (1 + 1e-9)) {
                best = trial;
            }
        }
        return best;
    }

    private Trial judge(char separator) {
        Map<Integer, Double> scores = new HashMap<>();
        for (Line line : lines.subList(Math.max(lines.size() - JUDGED, 0), lines.size())) {
            List<String> cells = cells(line.text(), separator);
            double share = numberShare(cells);
            if (cells.size() >= 2 && share >= 0.5) {
                scores.merge(cells.size(), share, Double::sum);
            }
        }
        if (scores.isEmpty()) {
            return new Trial(separator, 0, 0);
        }
        Map.Entry<Integer, Double> most = Collections.max(scores.entrySet(), Map.Entry.comparingByValue());
        return new Trial(separator, most.getKey(), most.getValue());
    }

    /** Share of numbers and time stamps among the cells that are not empty. */
    private double numberShare(List<String> cells) {
        int filled = 0;
        int numbers = 0;
        for (String cell : cells) {
            if (!cell.isBlank()) {
                filled++;
                numbers += number(cell) ? 1 : 0;
            }
        }
        return filled == 0 ? 0 : (double) numbers / filled;
    }

    private boolean number(String cell) {
        Character decimal = dialect.decimal();
        boolean point = decimal == null || decimal == '.';
        boolean comma = decimal == null || decimal == ',';
        return (point && !Double.isNaN(CellNumber.parse(cell, '.')))
                || (comma && !Double.isNaN(CellNumber.parse(cell, ',')))
                || Thousands.byComma(cell)
                || Thousands.byPoint(cell)
                || TimeStamps.looksLike(cell);
    }

    private @Nullable Layout layout(Trial best, LogProblems problems) {
        char separator = best.separator();
        int first = 0;
        if (dialect.headerRows() != null) {
            first = dialect.headerRows();
            if (first >= lines.size()) {
                problems.add(ProblemCode.HEADER_ONLY, lines.get(0).number(), 0, "");
                return null;
            }
        } else {
            while (!isData(lines.get(first), best)) {
                first++;
            }
        }
        List<String> none = Collections.nCopies(best.cells(), "");
        List<String> headings = none;
        List<String> units = none;
        long headingLine = 0;
        for (int i = first - 1; i >= 0; i--) {
            List<String> cells = cells(lines.get(i).text(), separator);
            if (cells.size() == best.cells()) {
                if (units == none && i > 0 && allUnits(cells)) {
                    units = cells;
                } else {
                    headings = cells;
                    headingLine = lines.get(i).number();
                    break;
                }
            } else if (separator == ',' && cells.size() >= 2 && best.cells() == 2 * cells.size() && i == first - 1) {
                problems.add(
                        ProblemCode.FIELD_COUNT_COMMA, lines.get(first).number(), 0, "", best.cells(), cells.size());
                return null;
            }
        }
        List<List<String>> rows = lines.subList(first, lines.size()).stream()
                .map(line -> cells(line.text(), separator))
                .toList();
        char decimal =
                dialect.decimal() == null ? DecimalSign.of(rows, separator, CellNumber::readable) : dialect.decimal();
        if (decimal == separator && headingLine == 0 && commasMayCutNumbers(rows, first, problems)) {
            return null;
        }
        return new Layout(
                separator,
                decimal,
                comment,
                first,
                lines.get(first).number(),
                best.cells(),
                headings,
                units,
                headingLine,
                rows.get(0),
                headingLine > 0 || first == 0 ? null : misfit(lines.get(first - 1), best));
    }

    private static Layout.@Nullable Misfit misfit(Line above, Trial best) {
        List<String> cells = cells(above.text(), best.separator());
        return cells.size() < 2 || cells.size() == best.cells() ? null : new Layout.Misfit(above.number(), cells);
    }

    private boolean isData(Line line, Trial best) {
        List<String> cells = cells(line.text(), best.separator());
        return cells.size() == best.cells() && numberShare(cells) >= 0.5;
    }

    private static boolean allUnits(List<String> cells) {
        boolean any = false;
        for (String cell : cells) {
            String bare = bare(cell);
            if (!bare.isEmpty() && !bare.equals("-") && !bare.equals("1")) {
                if (LogUnit.of(bare) == null) {
                    return false;
                }
                any = true;
            }
        }
        return any;
    }

    /** Returns a unit without the brackets that may stand around it. */
    static String bare(String cell) {
        String text = cell.strip();
        boolean bracketed = text.length() > 2
                && ((text.startsWith("[") && text.endsWith("]")) || (text.startsWith("(") && text.endsWith(")")));
        return bracketed ? text.substring(1, text.length() - 1).strip() : text;
    }

    /**
     * Headings tell by their number whether commas cut decimal numbers. Without any, only quotes do, and a line above the
     * data that has another number of cells makes them doubtful.
     */
    private boolean commasMayCutNumbers(List<List<String>> rows, int first, LogProblems problems) {
        long line = lines.get(first).number();
        boolean quoted = rows.stream()
                .flatMap(List::stream)
                .anyMatch(cell -> cell.indexOf(',') >= 0 && CellNumber.readable(cell, ','));
        int above = first == 0 || dialect.headerRows() != null
                ? 1
                : cells(lines.get(first - 1).text(), ',').size();
        if (!quoted) {
            problems.add(ProblemCode.LOG_COMMA_UNQUOTED, line, 0, "");
        } else if (above > 1) {
            problems.add(ProblemCode.FIELD_COUNT, line, 0, "", rows.get(0).size(), above);
        }
        return !quoted || above > 1;
    }

    /** Cuts a line, separators between quotes left alone. */
    static List<String> cells(String line, char separator) {
        List<String> cells = new ArrayList<>();
        if (line.indexOf('"') < 0) {
            int from = 0;
            for (int to = line.indexOf(separator); to >= 0; to = line.indexOf(separator, from)) {
                cells.add(line.substring(from, to));
                from = to + 1;
            }
            cells.add(line.substring(from));
            return cells;
        }
        StringBuilder cell = new StringBuilder();
        boolean quoted = false;
        for (int i = 0; i < line.length(); i++) {
            char c = line.charAt(i);
            if (c == '"') {
                if (quoted && i + 1 < line.length() && line.charAt(i + 1) == '"') {
                    cell.append('"');
                    i++;
                } else {
                    quoted = !quoted;
                }
            } else if (c == separator && !quoted) {
                cells.add(cell.toString());
                cell.setLength(0);
            } else {
                cell.append(c);
            }
        }
        cells.add(cell.toString());
        return cells;
    }
}
