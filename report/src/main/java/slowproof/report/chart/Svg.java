package slowproof.report.chart;

import java.awt.Dimension;
import java.awt.Graphics2D;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import org.apache.batik.dom.GenericDOMImplementation;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/** Charts as SVG: lines and text, no pixels. The same chart gives the same text. */
public final class Svg {
    private static final String NAMESPACE = "http://www.w3.org/2000/svg";

    /** For a viewer that does not have the face. */
    private static final String FACES = "'" + Face.FAMILY + "', 'DejaVu Serif', Georgia, serif";

    /** Draws a chart on a canvas of a size in points. */
    private interface Painter {
        void draw(Chart chart, Graphics2D canvas, double width, double height);
    }

    private Svg() {}

    /**
     * Returns a chart as an SVG document that stands beside its title: as text in the document, not drawn.
     *
     * @param chart the chart
     * @param width width in CSS pixels, greater than 0
     * @param height height in CSS pixels, greater than 0
     */
    public static String of(Chart chart, int width, int height) {
        return drawn(chart, width, height, ChartDrawing::draw);
    }

    /** Returns the same with the title drawn above, for a file that stands alone. */
    public static String headed(Chart chart, int width, int height) {
        return drawn(chart, width, height, ChartDrawing::drawHeaded);
    }

    private static String drawn(Chart chart, int width, int height, Painter painter) {
        Document document = GenericDOMImplementation.getDOMImplementation().createDocument(NAMESPACE, "svg", null);
        SVGGeneratorContext context = SVGGeneratorContext.createDefault(document);
        context.setComment(null);
        context.setPrecision(5);
        SVGGraphics2D canvas = new SVGGraphics2D(context, false);
        canvas.setSVGCanvasSize(new Dimension(width, height));
        painter.draw(chart, canvas, width, height);
        Element root = canvas.getRoot();
        root.setAttributeNS(null, "viewBox", "0 0 " + width + " " + height);
        root.setAttributeNS(null, "role", "img");
        root.setAttributeNS(null, "aria-label", chart.title());
        text(document, root, "desc", chart.description());
        text(document, root, "title", chart.title());
        StringWriter out = new StringWriter();
        try {
            canvas.stream(root, out, true, false);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        // the type's declaration would send a strict reader to the network for it
        return out.toString()
                .replaceFirst("<!DOCTYPE[^>]*>\\s*", "")
                .replaceAll("font-family(:|=[\"'])'?" + Face.FAMILY + "[^;'\"]*'?", "font-family$1" + FACES);
    }

    /** Puts an element first, so that readers find it before the drawing. */
    private static void text(Document document, Element root, String name, String content) {
        Element element = document.createElementNS(NAMESPACE, name);
        element.setTextContent(content);
        root.insertBefore(element, root.getFirstChild());
    }
}
