package slowproof.report.answer;

import com.openhtmltopdf.extend.FSObjectDrawer;
import com.openhtmltopdf.extend.FSObjectDrawerFactory;
import com.openhtmltopdf.extend.OutputDevice;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder.PdfAConformance;
import com.openhtmltopdf.render.RenderingContext;
import com.openhtmltopdf.util.XRLog;
import java.awt.Shape;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.zip.CRC32;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.jspecify.annotations.Nullable;
import org.w3c.dom.Element;
import slowproof.report.chart.Chart;
import slowproof.report.chart.ChartDrawing;
import slowproof.report.chart.Face;

/**
 * The document as PDF/A-3 (ISO 19005-3) with its data attached. The same document gives the same bytes: nothing in
 * it is random, and it knows no time but the date of its release.
 */
public final class AnswerPdf {
    private static final String KIND = "slowproof/chart";
    private static final int CHART_HEIGHT_MM = 70;
    /** Charts are drawn as wide as this and scaled to the column, which brings their letters to those of tables. */
    private static final double DRAWN_WIDTH = 820;

    private AnswerPdf() {}

    /**
     * Returns the file.
     *
     * @throws IOException if the layout fails
     */
    public static byte[] write(Answer answer) throws IOException {
        XRLog.setLoggingEnabled(false);
        List<Chart> charts = new ArrayList<>();
        String page = page(answer, charts);
        PdfRendererBuilder builder = new PdfRendererBuilder()
                .usePdfAConformance(PdfAConformance.PDFA_3_A)
                .usePdfUaAccessibility(true)
                .useColorProfile(SrgbProfile.bytes())
                .withProducer(answer.program());
        font(builder, "DejaVuSerifCondensed.ttf", 400);
        font(builder, "DejaVuSerifCondensed-Bold.ttf", 700);
        // what a file says must never make this program fetch something
        builder.useUriResolver((base, uri) -> null);
        builder.useUnicodeLineBreaker(new FigureBreaks());
        builder.useObjectDrawerFactory(new Drawers(charts));
        builder.withHtmlContent(page, null);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        builder.toStream(new ByteArrayOutputStream());
        try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
            renderer.createPDFWithoutClosing();
            PDDocument document = renderer.getPdfDocument();
            new PdfInside(document).complete(answer);
            CRC32 content = new CRC32();
            content.update(page.getBytes(StandardCharsets.UTF_8));
            answer.attachments().forEach(attachment -> content.update(attachment.content()));
            document.setDocumentId(content.getValue());
            document.save(bytes);
        }
        return bytes.toByteArray();
    }

    private static void font(PdfRendererBuilder builder, String file, int weight) {
        byte[] font = AnswerHtml.resource(file);
        builder.useFont(() -> new ByteArrayInputStream(font), Face.FAMILY, weight, FontStyle.NORMAL, true);
    }

    private static String page(Answer answer, List<Chart> charts) {
        Xml xml = new Xml();
        xml.tag("<html lang=\"" + Xml.escaped(answer.language()) + "\">\n<head>\n")
                .element("<title>", answer.title(), "title")
                .tag("<meta name=\"description\" content=\"" + Xml.escaped(AnswerHtml.identity(answer)) + "\"/>\n")
                .tag("<style>\n" + AnswerHtml.style() + margins(answer) + "</style>\n</head>\n<body>\n");
        if (!answer.watermark().isEmpty()) {
            xml.element("<div class=\"watermark\">", answer.watermark(), "div");
        }
        Markup.write(
                answer.blocks(),
                xml,
                (target, chart) -> {
                    target.tag("<object type=\"" + KIND + "\" data-chart=\"" + charts.size() + "\" alt=\""
                            + Xml.escaped(chart.description()) + "\" title=\"" + Xml.escaped(chart.title())
                            + "\" style=\"display: block; width: 100%; height: " + CHART_HEIGHT_MM
                            + "mm\"></object>\n");
                    charts.add(chart);
                },
                false);
        return xml.tag("</body>\n</html>\n").toString();
    }

    private static String margins(Answer answer) {
        String small = " font-family: \"" + Face.FAMILY + "\"; font-size: 7.4pt; color: #54595f; }\n";
        return "@page { size: " + answer.paper().css() + "; margin: 22mm 20mm 20mm 20mm;\n"
                + "@top-left { content: " + Xml.styleString(answer.title()) + "; width: 60%; vertical-align: bottom;"
                + " padding-bottom: 4mm;" + small
                + "@top-right { content: " + Xml.styleString(answer.state()) + "; width: 40%; text-align: right;"
                + " vertical-align: bottom; padding-bottom: 4mm;" + small
                + "@bottom-left { content: "
                + Xml.styleString(answer.program() + " \u00b7 " + answer.fingerprint())
                + "; width: 75%; vertical-align: top; padding-top: 4mm;" + small
                + "@bottom-right { content: " + Xml.styleString(answer.pageOf().get(0)) + " counter(page) "
                + Xml.styleString(answer.pageOf().get(1))
                + " counter(pages); width: 25%; text-align: right; vertical-align: top; padding-top: 4mm;" + small
                + "}\n.watermark { position: fixed; top: 95mm; left: 8mm; font-size: 74pt;"
                + " transform: rotate(-35deg); z-index: -1; }\n";
    }

    /** Draws the charts that the text points to by number. */
    private record Drawers(List<Chart> charts) implements FSObjectDrawerFactory, FSObjectDrawer {
        @Override
        public @Nullable FSObjectDrawer createDrawer(Element element) {
            return isReplacedObject(element) ? this : null;
        }

        @Override
        public boolean isReplacedObject(Element element) {
            return element.getAttribute("type").equals(KIND);
        }

        @Override
        public Map<Shape, String> drawObject(
                Element element,
                double x,
                double y,
                double width,
                double height,
                OutputDevice device,
                RenderingContext context,
                int dotsPerPixel) {
            Chart chart = charts.get(Integer.parseInt(element.getAttribute("data-chart")));
            double wide = width / dotsPerPixel;
            double high = height / dotsPerPixel;
            device.drawWithGraphics((float) x, (float) y, (float) wide, (float) high, canvas -> {
                double scale = wide / DRAWN_WIDTH;
                canvas.scale(scale, scale);
                ChartDrawing.draw(chart, canvas, DRAWN_WIDTH, high / scale);
            });
            return Map.of();
        }
    }
}
