package slowproof.report.chart;

import java.util.List;

/**
 * A chart as JSON for the pages, which paint it on a canvas: both axes, a logarithmic one with its round values, the
 * decimal sign, and the layers, each place an array [x, y, low, high] with null for what is not there. Written by hand:
 * seven shapes of numbers and short words.
 */
public final class PlotJson {
    private final StringBuilder out = new StringBuilder();

    private PlotJson() {}

    /** Returns the JSON. */
    public static String of(Chart chart) {
        PlotJson json = new PlotJson();
        json.chart(chart);
        return json.out.toString();
    }

    private void chart(Chart chart) {
        out.append('{');
        axis("x", chart.x());
        out.append(',');
        axis("y", chart.y());
        out.append(',');
        text("mark", String.valueOf(chart.decimalSign()));
        out.append(",\"layers\":[");
        String separator = "";
        for (Layer layer : chart.layers()) {
            out.append(separator);
            layer(layer);
            separator = ",";
        }
        out.append("]}");
    }

    private void axis(String key, Axis axis) {
        out.append('"').append(key).append("\":{");
        text("label", axis.label());
        out.append(",\"decades\":").append(axis.logarithmic());
        number("low", axis.low());
        number("high", axis.high());
        if (axis.logarithmic()) {
            ticks(axis);
        }
        out.append('}');
    }

    private void ticks(Axis axis) {
        out.append(",\"ticks\":[");
        String separator = "";
        for (double value : Ticks.decades(axis)) {
            out.append(separator);
            value(value);
            separator = ",";
        }
        out.append(']');
    }

    private void layer(Layer layer) {
        out.append('{');
        text("name", layer.name());
        out.append(',');
        text("tone", layer.tone().key());
        out.append(',');
        if (layer instanceof Layer.Points points) {
            text("kind", "points");
            out.append(',');
            text("symbol", points.symbol().key());
            places(points.places());
        } else if (layer instanceof Layer.Line line) {
            text("kind", "line");
            dashes(line.stroke());
            places(line.places());
        } else if (layer instanceof Layer.Band band) {
            text("kind", "band");
            places(band.places());
        } else if (layer instanceof Layer.Guide guide) {
            text("kind", "guide");
            dashes(guide.stroke());
            out.append(",\"upright\":").append(guide.upright());
            number("at", guide.at());
            number("low", guide.low());
            number("high", guide.high());
        } else if (layer instanceof Layer.Region region) {
            text("kind", "region");
            number("low", region.low());
            number("high", region.high());
        } else if (layer instanceof Layer.Bars bars) {
            text("kind", "bars");
            out.append(",\"hatched\":").append(bars.hatched());
            bars(bars.bars());
        }
        out.append('}');
    }

    private void dashes(Stroke stroke) {
        out.append(",\"dashes\":[");
        String separator = "";
        for (float length : stroke.pattern()) {
            out.append(separator).append(length);
            separator = ",";
        }
        out.append(']');
    }

    private void places(List<Place> places) {
        out.append(",\"places\":[");
        String separator = "[";
        for (Place place : places) {
            out.append(separator);
            value(place.x());
            out.append(',');
            value(place.y());
            if (place.hasBar()) {
                out.append(',');
                value(place.low());
                out.append(',');
                value(place.high());
            }
            out.append(']');
            separator = ",[";
        }
        out.append(']');
    }

    private void bars(List<Layer.Bar> bars) {
        out.append(",\"bars\":[");
        String separator = "{";
        for (Layer.Bar bar : bars) {
            out.append(separator);
            text("label", bar.label());
            number("row", bar.row());
            number("length", bar.length());
            out.append('}');
            separator = ",{";
        }
        out.append(']');
    }

    private void number(String key, double value) {
        out.append(",\"").append(key).append("\":");
        value(value);
    }

    private void value(double value) {
        if (Double.isFinite(value)) {
            out.append(value);
        } else {
            out.append("null");
        }
    }

    private void text(String key, String value) {
        out.append('"').append(key).append("\":\"");
        for (int i = 0; i < value.length(); i++) {
            char c = value.charAt(i);
            if (c == '"' || c == '\\') {
                out.append('\\').append(c);
            } else if (c < ' ') {
                out.append(String.format(java.util.Locale.ROOT, "\\u%04x", (int) c));
            } else {
                out.append(c);
            }
        }
        out.append('"');
    }
}
