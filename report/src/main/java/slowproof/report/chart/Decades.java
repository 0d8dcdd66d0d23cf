package slowproof.report.chart;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.jfree.chart.axis.LogAxis;
import org.jfree.chart.axis.NumberTick;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.TextAnchor;

/** A logarithmic axis with a number at 1, 2 and 5 of each decade: the library's own has one at each decade only. */
final class Decades extends LogAxis {
    private static final long serialVersionUID = 1;

    private final transient Axis axis;
    private final char decimalSign;

    Decades(Axis axis, char decimalSign) {
        super(axis.label());
        this.axis = axis;
        this.decimalSign = decimalSign;
    }

    @Override
    public List<NumberTick> refreshTicks(
            Graphics2D graphics, org.jfree.chart.axis.AxisState state, Rectangle2D area, RectangleEdge edge) {
        boolean level = RectangleEdge.isTopOrBottom(edge);
        List<NumberTick> ticks = new ArrayList<>();
        for (double value : Ticks.decades(axis)) {
            ticks.add(new NumberTick(
                    value,
                    Ticks.written(value, decimalSign),
                    level ? TextAnchor.TOP_CENTER : TextAnchor.CENTER_RIGHT,
                    TextAnchor.CENTER,
                    0));
        }
        return ticks;
    }
}
