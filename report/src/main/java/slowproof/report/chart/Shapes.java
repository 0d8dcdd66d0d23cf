package slowproof.report.chart;

import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;

/**
 * Outline of a symbol around the origin, in points.
 *
 * @param outline the outline
 * @param closed true when it has an inside
 * @param filled true when its inside has the colour of its edge
 */
record Shapes(Shape outline, boolean closed, boolean filled) {
    static Shapes of(Symbol symbol) {
        return switch (symbol) {
            case DISC -> new Shapes(circle(4), true, true);
            case RING -> new Shapes(circle(4), true, false);
            case SPECK -> new Shapes(circle(1.6), true, true);
            case CROSS -> new Shapes(cross(4), false, false);
            case DIAMOND -> new Shapes(diamond(7), false, false);
            case TRIANGLE -> new Shapes(triangle(6.4), false, false);
        };
    }

    private static Shape circle(double radius) {
        return new Ellipse2D.Double(-radius, -radius, 2 * radius, 2 * radius);
    }

    private static Shape cross(double r) {
        Path2D path = new Path2D.Double();
        path.moveTo(-r, -r);
        path.lineTo(r, r);
        path.moveTo(r, -r);
        path.lineTo(-r, r);
        return path;
    }

    private static Shape diamond(double r) {
        Path2D path = new Path2D.Double();
        path.moveTo(0, -r);
        path.lineTo(r, 0);
        path.lineTo(0, r);
        path.lineTo(-r, 0);
        path.closePath();
        return path;
    }

    private static Shape triangle(double r) {
        Path2D path = new Path2D.Double();
        path.moveTo(0, -r);
        path.lineTo(0.87 * r, 0.5 * r);
        path.lineTo(-0.87 * r, 0.5 * r);
        path.closePath();
        return path;
    }
}
