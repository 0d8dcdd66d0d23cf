package slowproof.report.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import org.jfree.chart.annotations.AbstractXYAnnotation;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.XYPlot;

/**
 * Lying bars in rows. The text of a row stands in the plot above its bar: beside the axis, long words would leave no room
 * for the bars on a narrow page.
 */
final class Rows extends AbstractXYAnnotation {
    private static final long serialVersionUID = 1L;

    /** Height of a bar, and of the room for its text, as shares of a row. */
    private static final double BAR = 0.4;

    private static final double TEXT = 0.5;
    private static final float LARGEST = 11;
    private static final int INDENT = 4;

    private final transient Layer.Bars layer;
    private final Color fill;
    private final Color edge;
    private final Color ink;

    Rows(Layer.Bars layer, Color fill, Color edge, Color ink) {
        super();
        this.layer = layer;
        this.fill = fill;
        this.edge = edge;
        this.ink = ink;
    }

    @Override
    public void draw(
            Graphics2D canvas,
            XYPlot plot,
            Rectangle2D area,
            ValueAxis across,
            ValueAxis up,
            int index,
            PlotRenderingInfo info) {
        double row = area.getHeight() / (up.getUpperBound() - up.getLowerBound());
        double zero = across.valueToJava2D(0, area, plot.getDomainAxisEdge());
        for (Layer.Bar bar : layer.bars()) {
            double bottom = area.getMinY() + row * (bar.row() + 0.97);
            double end = across.valueToJava2D(bar.length(), area, plot.getDomainAxisEdge());
            Rectangle2D box = new Rectangle2D.Double(zero, bottom - BAR * row, end - zero, BAR * row);
            canvas.setPaint(fill);
            canvas.fill(box);
            if (layer.hatched()) {
                Hatch.draw(canvas, box, edge);
            }
            canvas.setPaint(edge);
            canvas.setStroke(new BasicStroke(1));
            canvas.draw(box);
            canvas.setPaint(ink);
            canvas.setFont(Face.plain(Math.min(LARGEST, (float) (TEXT * row))));
            canvas.drawString(bar.label(), (float) (area.getMinX() + INDENT), (float) (box.getMinY() - 0.08 * row));
        }
    }
}
