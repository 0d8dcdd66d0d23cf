package slowproof.report.answer;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import slowproof.report.chart.Chart;

/** Makes XHTML of a document's blocks; how a chart gets in is the painter's affair. */
final class Markup {
    /** Puts a chart into the text. */
    @FunctionalInterface
    interface Pictures {
        void put(Xml xml, Chart chart);
    }

    /** From so many columns on a table is set smaller. */
    private static final int MANY = 10;

    /** Words of so many signs at most, such as the name of a surface, stay on one line of a table. */
    private static final int BRIEF = 30;

    /** So many signs of brief words and figures a line of a table holds beside a column of longer words. */
    private static final int MOST_SIGNS = 84;

    /** So many rows of a table stand together at its end. */
    private static final int FEWEST_ROWS = 3;

    private final Xml xml;
    private final Pictures pictures;
    private final boolean held;
    private boolean labels;

    private Markup(Xml xml, Pictures pictures, boolean held) {
        this.xml = xml;
        this.pictures = pictures;
        this.held = held;
    }

    /**
     * Writes all blocks.
     *
     * @param held whether figures are held together by elements around them, for a painter that breaks lines itself
     */
    static void write(List<Block> blocks, Xml xml, Pictures pictures, boolean held) {
        Markup markup = new Markup(xml, pictures, held);
        for (Together group : Together.of(blocks)) {
            if (group.kept()) {
                markup.endLabels();
                xml.tag("<div class=\"together\">\n");
                group.blocks().forEach(markup::block);
                markup.endLabels();
                xml.tag("</div>\n");
            } else {
                group.blocks().forEach(markup::block);
            }
        }
        markup.endLabels();
    }

    private void block(Block block) {
        if (block instanceof Block.Labelled labelled) {
            if (!labels) {
                xml.tag("<table class=\"facts\"><tbody>\n");
                labels = true;
            }
            xml.tag("<tr>").tag("<th scope=\"row\">").text(labelled.label()).tag("</th><td>");
            prose(labelled.text()).tag("</td></tr>\n");
            return;
        }
        endLabels();
        if (block instanceof Block.Heading heading) {
            String name = "h" + heading.level();
            xml.element("<" + name + ">", heading.text(), name);
        } else if (block instanceof Block.Paragraph paragraph) {
            xml.tag("<p>");
            prose(paragraph.text()).tag("</p>\n");
        } else if (block instanceof Block.Marked marked) {
            xml.tag("<p class=\"marked " + marked.tone().name().toLowerCase(java.util.Locale.ROOT) + "\"><b>")
                    .text(marked.mark())
                    .tag("</b>&#160;&#160;");
            prose(marked.text()).tag("</p>\n");
        } else if (block instanceof Block.Table table) {
            table(table);
        } else if (block instanceof Block.Picture picture) {
            xml.tag("<div class=\"picture\">");
            xml.element("<h3>", picture.chart().title(), "h3");
            pictures.put(xml, picture.chart());
            xml.element("<p class=\"said\">", picture.chart().description(), "p")
                    .tag("</div>\n");
        }
    }

    /** Writes words so that no line ends within a number, or between a number and its sign or unit. */
    private Xml prose(String text) {
        if (!held) {
            return xml.text(text);
        }
        Matcher figure = FigureBreaks.FIGURE.matcher(text);
        int from = 0;
        while (figure.find()) {
            xml.text(text.substring(from, figure.start()))
                    .tag("<span class=\"figure\">")
                    .text(figure.group())
                    .tag("</span>");
            from = figure.end();
        }
        return xml.text(text.substring(from));
    }

    private void endLabels() {
        if (labels) {
            xml.tag("</tbody></table>\n");
            labels = false;
        }
    }

    /** A line may end at a bar; within a word, after its hyphen, it has to. */
    private void head(String head) {
        String[] parts = head.split("\\|");
        for (int i = 0; i < parts.length; i++) {
            xml.text(parts[i]);
            if (i + 1 < parts.length) {
                xml.tag(parts[i].endsWith("-") ? "<br/>" : " ");
            }
        }
    }

    /** Returns true when all brief words fit on a line beside the figures, with room left for what is longer. */
    private static boolean hasRoom(Block.Table table) {
        int signs = 0;
        for (int i = 0; i < table.columns().size(); i++) {
            int longest = longest(table, i);
            signs += longest <= BRIEF ? longest : 0;
        }
        return signs <= MOST_SIGNS;
    }

    private static int longest(Block.Table table, int column) {
        return table.rows().stream()
                .mapToInt(row -> row.get(column).length())
                .max()
                .orElse(0);
    }

    private void table(Block.Table table) {
        List<String> classes = new ArrayList<>();
        if (held) {
            // on a narrow screen the table moves in its own box, which the keyboard reaches
            xml.tag("<div class=\"scroll\" tabindex=\"0\">\n");
        }
        xml.tag(table.columns().size() >= MANY ? "<table class=\"figures many\">" : "<table class=\"figures\">")
                .tag("<thead><tr>");
        boolean room = hasRoom(table);
        for (int i = 0; i < table.columns().size(); i++) {
            Block.Column column = table.columns().get(i);
            boolean brief = room && longest(table, i) <= BRIEF;
            String kind = column.number() ? "number" : brief ? "words brief" : "words";
            classes.add(kind);
            xml.tag("<th scope=\"col\" class=\"" + kind + "\">");
            head(column.head());
            if (!column.unit().isEmpty()) {
                xml.tag("<br/><span class=\"unit\">").text(column.unit()).tag("</span>");
            }
            xml.tag("</th>");
        }
        xml.tag("</tr></thead><tbody>\n");
        int last = table.rows().size() - FEWEST_ROWS;
        for (int at = 0; at < table.rows().size(); at++) {
            List<String> row = table.rows().get(at);
            // asks for room for itself and the rows after it: no page begins with the last row or two of a table
            xml.tag(at == last ? "<tr class=\"ending\">" : "<tr>");
            for (int i = 0; i < row.size(); i++) {
                xml.tag("<td class=\"" + classes.get(i) + "\">")
                        .text(row.get(i))
                        .tag("</td>");
            }
            xml.tag("</tr>\n");
        }
        xml.tag(held ? "</tbody></table>\n</div>\n" : "</tbody></table>\n");
    }
}
