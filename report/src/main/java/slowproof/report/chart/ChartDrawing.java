package slowproof.report.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.LegendItem;
import org.jfree.chart.LegendItemCollection;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.block.BlockBorder;
import org.jfree.chart.plot.DatasetRenderingOrder;
import org.jfree.chart.plot.IntervalMarker;
import org.jfree.chart.plot.Marker;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.DeviationRenderer;
import org.jfree.chart.renderer.xy.XYErrorRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.text.TextUtils;
import org.jfree.chart.title.TextTitle;
import org.jfree.chart.ui.HorizontalAlignment;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.jfree.data.xy.YIntervalSeries;
import org.jfree.data.xy.YIntervalSeriesCollection;

/** Draws a chart on a canvas: the painter for documents and for SVG. */
public final class ChartDrawing {
    /** Colours beside the tones, from dark to light. */
    private static final Color FRAME = new Color(0x8d887c);

    private static final Color GRID = new Color(0xddd8cc);
    private static final int PAPER = 0xffffff;
    private static final float HAIRLINE = 0.8f;

    static {
        // the library would turn upright labels into outlines, which nobody can select or search
        TextUtils.setUseDrawRotatedStringWorkaround(false);
    }

    private final Chart chart;
    private final XYPlot plot = new XYPlot();
    private final LegendItemCollection legend = new LegendItemCollection();
    private final List<Hatch> hatches = new ArrayList<>();
    private final List<Rows> rows = new ArrayList<>();
    private int datasets;

    private ChartDrawing(Chart chart) {
        this.chart = chart;
    }

    /**
     * Draws without the title and without a ground, for places that have a heading and a paper of their own.
     *
     * @param chart the chart
     * @param canvas where to draw
     * @param width width in points, greater than 0
     * @param height height in points, greater than 0
     */
    public static void draw(Chart chart, Graphics2D canvas, double width, double height) {
        new ChartDrawing(chart).built().draw(canvas, new Rectangle2D.Double(0, 0, width, height));
    }

    /** Draws as {@link #draw}, with the title above and on white: for a file that stands alone. */
    static void drawHeaded(Chart chart, Graphics2D canvas, double width, double height) {
        JFreeChart drawn = new ChartDrawing(chart).built();
        TextTitle title = new TextTitle(chart.title(), Face.bold(15));
        title.setPaint(colour(Tone.INK));
        title.setHorizontalAlignment(HorizontalAlignment.LEFT);
        title.setTextAlignment(HorizontalAlignment.LEFT);
        title.setPadding(new RectangleInsets(2, 8, 8, 8));
        drawn.setTitle(title);
        drawn.setBackgroundPaint(Color.WHITE);
        drawn.draw(canvas, new Rectangle2D.Double(0, 0, width, height));
    }

    private JFreeChart built() {
        plot.setDomainAxis(axis(chart.x()));
        plot.setRangeAxis(axis(chart.y()));
        // room about the numbers, so that a long axis is not crowded with them
        plot.getDomainAxis().setTickLabelInsets(new RectangleInsets(2, 10, 2, 10));
        plot.getRangeAxis().setTickLabelInsets(new RectangleInsets(6, 4, 6, 4));
        // what lies behind, such as the mark of a draft, is to be seen
        plot.setBackgroundPaint(null);
        plot.setOutlinePaint(FRAME);
        plot.setDomainGridlinePaint(GRID);
        plot.setRangeGridlinePaint(GRID);
        plot.setDomainGridlineStroke(new BasicStroke(HAIRLINE));
        plot.setRangeGridlineStroke(new BasicStroke(HAIRLINE));
        plot.setRangeGridlinesVisible(chart.y().drawn());
        plot.setRangeZeroBaselineVisible(!chart.y().logarithmic());
        plot.setRangeZeroBaselinePaint(FRAME);
        plot.setRangeZeroBaselineStroke(new BasicStroke(1));
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
        plot.setDatasetRenderingOrder(DatasetRenderingOrder.FORWARD);
        chart.layers().forEach(this::add);
        if (datasets == 0) {
            // the library asks a renderer to draw marked values, also where there are no data
            show(new XYSeriesCollection(), new XYLineAndShapeRenderer());
        }
        hatches.forEach(hatch -> plot.getRenderer(0).addAnnotation(hatch, org.jfree.chart.ui.Layer.BACKGROUND));
        rows.forEach(row -> plot.getRenderer(0).addAnnotation(row));
        plot.setFixedLegendItems(legend);
        JFreeChart drawn = new JFreeChart(null, Face.plain(12), plot, legend.getItemCount() > 0);
        drawn.setBackgroundPaint(null);
        drawn.setPadding(new RectangleInsets(6, 4, 4, 12));
        drawn.setElementHinting(false);
        above(drawn);
        if (drawn.getLegend() != null) {
            drawn.getLegend().setBackgroundPaint(null);
            drawn.getLegend().setItemFont(Face.plain(11));
            drawn.getLegend().setItemPaint(colour(Tone.INK));
            drawn.getLegend().setFrame(BlockBorder.NONE);
            drawn.getLegend().setItemLabelPadding(new RectangleInsets(2, 2, 2, 10));
        }
        return drawn;
    }

    /** Puts the name of the vertical axis above the plot, where it has the whole width: beside it, a low chart would cut it. */
    private void above(JFreeChart drawn) {
        if (!chart.y().drawn()) {
            return;
        }
        plot.getRangeAxis().setLabel(null);
        TextTitle name = new TextTitle(chart.y().label(), Face.plain(12));
        name.setPaint(colour(Tone.INK));
        name.setHorizontalAlignment(HorizontalAlignment.LEFT);
        name.setTextAlignment(HorizontalAlignment.LEFT);
        name.setPadding(new RectangleInsets(0, 8, 4, 0));
        drawn.addSubtitle(name);
    }

    private ValueAxis axis(Axis described) {
        ValueAxis axis;
        if (described.logarithmic()) {
            axis = new Decades(described, chart.decimalSign());
        } else {
            NumberAxis linear = new NumberAxis(described.label());
            DecimalFormatSymbols symbols = DecimalFormatSymbols.getInstance(Locale.ROOT);
            symbols.setDecimalSeparator(chart.decimalSign());
            symbols.setMinusSign('\u2212');
            linear.setNumberFormatOverride(new DecimalFormat("0.######", symbols));
            axis = linear;
        }
        axis.setVisible(described.drawn());
        axis.setRange(described.low(), described.high());
        axis.setLabelFont(Face.plain(12));
        axis.setTickLabelFont(Face.plain(11));
        axis.setLabelPaint(colour(Tone.INK));
        axis.setTickLabelPaint(colour(Tone.INK));
        axis.setAxisLinePaint(FRAME);
        axis.setTickMarkPaint(FRAME);
        return axis;
    }

    private void add(Layer layer) {
        if (layer instanceof Layer.Points points) {
            points(points);
        } else if (layer instanceof Layer.Line line) {
            line(line);
        } else if (layer instanceof Layer.Band band) {
            band(band);
        } else if (layer instanceof Layer.Guide guide) {
            guide(guide);
        } else if (layer instanceof Layer.Region region) {
            region(region);
        } else if (layer instanceof Layer.Bars bars) {
            bars(bars);
        }
    }

    private void points(Layer.Points points) {
        YIntervalSeries series = new YIntervalSeries(datasets, false, true);
        boolean bars = false;
        for (Place place : points.places()) {
            bars |= place.hasBar();
            series.add(
                    place.x(),
                    place.y(),
                    place.hasBar() ? place.low() : place.y(),
                    place.hasBar() ? place.high() : place.y());
        }
        YIntervalSeriesCollection data = new YIntervalSeriesCollection();
        data.addSeries(series);
        XYErrorRenderer renderer = new XYErrorRenderer();
        renderer.setDrawXError(false);
        renderer.setDrawYError(bars);
        renderer.setCapLength(5);
        renderer.setErrorPaint(colour(points.tone()));
        renderer.setErrorStroke(new BasicStroke(1.2f));
        renderer.setDefaultLinesVisible(false);
        Shapes shape = Shapes.of(points.symbol());
        renderer.setSeriesShape(0, shape.outline());
        renderer.setSeriesPaint(0, colour(points.tone()));
        renderer.setUseFillPaint(true);
        renderer.setSeriesFillPaint(0, shape.filled() ? colour(points.tone()) : Color.WHITE);
        renderer.setSeriesShapesFilled(0, shape.closed());
        renderer.setDrawSeriesLineAsPath(false);
        renderer.setSeriesOutlineStroke(0, new BasicStroke(1.4f));
        renderer.setSeriesStroke(0, new BasicStroke(1.4f));
        renderer.setDrawOutlines(true);
        show(data, renderer);
        item(points, shape, null);
    }

    private void line(Layer.Line line) {
        XYSeries series = new XYSeries(datasets, false, true);
        line.places().forEach(place -> series.add(place.x(), place.y()));
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setSeriesPaint(0, colour(line.tone()));
        renderer.setSeriesStroke(0, stroke(line.stroke(), 1.6f));
        renderer.setDrawSeriesLineAsPath(true);
        show(new XYSeriesCollection(series), renderer);
        item(line, null, stroke(line.stroke(), 1.6f));
    }

    private void band(Layer.Band band) {
        YIntervalSeries series = new YIntervalSeries(datasets, false, true);
        for (Place place : band.places()) {
            series.add(place.x(), place.y(), place.low(), place.high());
        }
        YIntervalSeriesCollection data = new YIntervalSeriesCollection();
        data.addSeries(series);
        DeviationRenderer renderer = new DeviationRenderer(false, false);
        renderer.setAlpha(1);
        renderer.setSeriesFillPaint(0, faint(band.tone()));
        renderer.setSeriesPaint(0, faint(band.tone()));
        show(data, renderer);
        // edges, so that the band stands out from a stripe below it without colour
        edge(band, Place::low);
        edge(band, Place::high);
        legend.add(new LegendItem(
                band.name(), null, null, null, new Rectangle2D.Double(-9, -4, 18, 8), faint(band.tone())));
    }

    private void edge(Layer.Band band, ToDoubleFunction<Place> end) {
        XYSeries series = new XYSeries(datasets, false, true);
        band.places().forEach(place -> series.add(place.x(), end.applyAsDouble(place)));
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setSeriesPaint(0, mixed(band.tone(), 0.6));
        renderer.setSeriesStroke(0, new BasicStroke(HAIRLINE));
        renderer.setDrawSeriesLineAsPath(true);
        show(new XYSeriesCollection(series), renderer);
    }

    private void guide(Layer.Guide guide) {
        if (guide.hasInterval()) {
            // the interval is drawn as a hatched stripe behind everything
            hatches.add(new Hatch(guide.upright(), guide.low(), guide.high(), mixed(guide.tone(), 0.6)));
            mark(
                    new IntervalMarker(guide.low(), guide.high(), faint(guide.tone())),
                    guide.upright(),
                    org.jfree.chart.ui.Layer.BACKGROUND);
        }
        mark(
                new ValueMarker(guide.at(), colour(guide.tone()), stroke(guide.stroke(), 1.4f)),
                guide.upright(),
                org.jfree.chart.ui.Layer.FOREGROUND);
        if (guide.hasInterval() && !guide.name().isEmpty()) {
            legend.add(swatch(guide, faint(guide.tone()), true));
        } else {
            item(guide, null, stroke(guide.stroke(), 1.4f));
        }
    }

    private void region(Layer.Region region) {
        mark(
                new IntervalMarker(region.low(), region.high(), fainter(region.tone())),
                true,
                org.jfree.chart.ui.Layer.BACKGROUND);
        if (!region.name().isEmpty()) {
            legend.add(new LegendItem(
                    region.name(), null, null, null, new Rectangle2D.Double(-9, -4, 18, 8), fainter(region.tone())));
        }
    }

    private void bars(Layer.Bars bars) {
        Color fill = bars.hatched() ? faint(bars.tone()) : mixed(bars.tone(), 0.75);
        rows.add(new Rows(bars, fill, colour(bars.tone()), colour(Tone.INK)));
        if (!bars.name().isEmpty()) {
            legend.add(swatch(bars, fill, bars.hatched()));
        }
    }

    /** A swatch shows the hatch too, as slanting lines over the faint ground. */
    private static LegendItem swatch(Layer layer, Color fill, boolean hatched) {
        Path2D shape = new Path2D.Double(new Rectangle2D.Double(-9, -4, 18, 8));
        for (double foot = -9; hatched && foot < 4; foot += 4) {
            shape.moveTo(foot, 4);
            shape.lineTo(foot + 8, -4);
        }
        return new LegendItem(
                layer.name(), null, null, null, shape, fill, new BasicStroke(HAIRLINE), colour(layer.tone()));
    }

    private void mark(Marker marker, boolean upright, org.jfree.chart.ui.Layer layer) {
        marker.setAlpha(1);
        if (upright) {
            plot.addDomainMarker(marker, layer);
        } else {
            plot.addRangeMarker(marker, layer);
        }
    }

    private void show(org.jfree.data.xy.XYDataset data, org.jfree.chart.renderer.xy.XYItemRenderer renderer) {
        plot.setDataset(datasets, data);
        plot.setRenderer(datasets, renderer);
        datasets++;
    }

    private void item(
            Layer layer,
            @org.jspecify.annotations.Nullable Shapes shape,
            @org.jspecify.annotations.Nullable BasicStroke stroke) {
        if (layer.name().isEmpty()) {
            return;
        }
        Color ink = colour(layer.tone());
        LegendItem item = new LegendItem(
                layer.name(),
                null,
                null,
                null,
                shape != null,
                shape == null ? new Rectangle2D.Double() : shape.outline(),
                shape != null && shape.closed(),
                shape != null && !shape.filled() ? Color.WHITE : ink,
                shape != null,
                ink,
                new BasicStroke(1.4f),
                stroke != null,
                new java.awt.geom.Line2D.Double(-12, 0, 12, 0),
                stroke == null ? new BasicStroke(1) : stroke,
                ink);
        legend.add(item);
    }

    private static BasicStroke stroke(Stroke stroke, float width) {
        float[] pattern = stroke.pattern();
        return pattern.length == 0
                ? new BasicStroke(width)
                : new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, pattern, 0);
    }

    private static Color colour(Tone tone) {
        return new Color(tone.rgb());
    }

    private static Color faint(Tone tone) {
        return mixed(tone, 0.22);
    }

    private static Color fainter(Tone tone) {
        return mixed(tone, 0.10);
    }

    /** Opaque, so that every printer and reader shows the same. */
    private static Color mixed(Tone tone, double share) {
        int rgb = 0;
        for (int shift = 16; shift >= 0; shift -= 8) {
            double ink = tone.rgb() >> shift & 0xff;
            double paper = PAPER >> shift & 0xff;
            rgb |= (int) Math.round(share * ink + (1 - share) * paper) << shift;
        }
        return new Color(rgb);
    }
}
