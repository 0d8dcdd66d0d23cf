package slowproof.report.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import org.jfree.chart.annotations.AbstractXYAnnotation;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.RectangleEdge;

/**
 * Slanting lines over a range of one axis, from end to end of the other: in print without colour they tell the stripe
 * from a band. Drawn as lines, because a pattern of pixels would not survive enlarging.
 */
final class Hatch extends AbstractXYAnnotation {
    private static final long serialVersionUID = 1L;

    /** Distance of the lines along the horizontal, in points. */
    private static final double STEP = 7;

    private final boolean upright;
    private final double low;
    private final double high;
    private final Color colour;

    Hatch(boolean upright, double low, double high, Color colour) {
        super();
        this.upright = upright;
        this.low = low;
        this.high = high;
        this.colour = colour;
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
        ValueAxis axis = upright ? across : up;
        RectangleEdge edge = upright ? plot.getDomainAxisEdge() : plot.getRangeAxisEdge();
        double from = axis.valueToJava2D(Math.max(low, axis.getLowerBound()), area, edge);
        double to = axis.valueToJava2D(Math.min(high, axis.getUpperBound()), area, edge);
        double left = upright ? from : area.getMinX();
        double right = upright ? to : area.getMaxX();
        double top = upright ? area.getMinY() : to;
        double bottom = upright ? area.getMaxY() : from;
        draw(canvas, new Rectangle2D.Double(left, top, right - left, bottom - top), colour);
    }

    /** Draws slanting lines in a rectangle. */
    static void draw(Graphics2D canvas, Rectangle2D within, Color colour) {
        double high = within.getHeight();
        Path2D lines = new Path2D.Double();
        for (double foot = within.getMinX() - high; foot < within.getMaxX(); foot += STEP) {
            double start = Math.max(foot, within.getMinX());
            double end = Math.min(foot + high, within.getMaxX());
            if (start < end) {
                lines.moveTo(start, within.getMaxY() - (start - foot));
                lines.lineTo(end, within.getMaxY() - (end - foot));
            }
        }
        canvas.setPaint(colour);
        canvas.setStroke(new BasicStroke(0.6f));
        canvas.draw(lines);
    }
}
