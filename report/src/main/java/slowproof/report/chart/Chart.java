package slowproof.report.chart;

import java.util.List;

/**
 * A chart, described once: painters draw it on a page and in a document alike. All words are worded already, so a
 * chart has no language of its own but the decimal sign of its ticks.
 *
 * @param title what it shows
 * @param description what a person who cannot see it should know: the finding, in words
 * @param x horizontal axis
 * @param y vertical axis
 * @param decimalSign decimal sign of the numbers at the axes
 * @param layers what is drawn, the first at the bottom
 */
public record Chart(String title, String description, Axis x, Axis y, char decimalSign, List<Layer> layers) {
    /**
     * Copies the layers.
     *
     * @throws IllegalArgumentException without a title, or without a layer
     */
    public Chart {
        layers = List.copyOf(layers);
        if (title.isBlank()) {
            throw new IllegalArgumentException("a chart needs a title");
        }
        if (layers.isEmpty()) {
            throw new IllegalArgumentException("a chart without a layer shows nothing: " + title);
        }
    }
}
