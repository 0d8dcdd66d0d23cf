package slowproof.report.answer;

import java.util.List;
import slowproof.report.chart.Chart;

/** A part of a document, in reading order. All texts are plain text. */
public sealed interface Block {
    /** How a mark looks in colour; the mark itself says the same without it. */
    enum Tone {
        PLAIN,
        GOOD,
        OPEN,
        BAD
    }

    /**
     * A heading.
     *
     * @param level 1 for a chapter, 2 for a section, 3 for a term
     * @param text words
     */
    record Heading(int level, String text) implements Block {}

    /**
     * A paragraph.
     *
     * @param text words
     */
    record Paragraph(String text) implements Block {}

    /**
     * A label and what it stands for.
     *
     * @param label label
     * @param text words
     */
    record Labelled(String label, String text) implements Block {}

    /**
     * A marked sentence.
     *
     * @param mark one sign that says how it stands
     * @param tone colour of the mark
     * @param text words
     */
    record Marked(String mark, Tone tone, String text) implements Block {}

    /**
     * A table. It may run over several pages and repeats its head there.
     *
     * @param columns columns from the left
     * @param rows cells in the order of the columns
     */
    record Table(List<Column> columns, List<List<String>> rows) implements Block {
        /** Copies the lists. */
        public Table {
            columns = List.copyOf(columns);
            rows = List.copyOf(rows);
        }
    }

    /**
     * A column.
     *
     * @param head words, a line break at each bar
     * @param unit unit, empty for none
     * @param number true to stand right
     */
    record Column(String head, String unit, boolean number) {}

    /**
     * A chart, drawn as vectors.
     *
     * @param chart the chart
     */
    record Picture(Chart chart) implements Block {}
}
