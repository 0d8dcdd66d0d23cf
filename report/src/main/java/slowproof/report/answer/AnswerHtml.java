package slowproof.report.answer;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import slowproof.report.chart.Svg;

/** The document as one HTML file that needs nothing beside it. */
public final class AnswerHtml {
    private static final int WIDTH = 680;
    private static final int HEIGHT = 380;

    private static final Pattern DATA =
            Pattern.compile("download=\"([^\"]+)\" title=\"([^\"]*)\" href=\"data:application/json;base64,([^\"]*)\"");

    private static final String READABLE = """
            html { background: #fbfaf6; }
            body { max-width: 190mm; margin: 8mm auto; padding: 0 6mm; font-size: 11pt; }
            .state { color: #54595f; font-size: 9pt; border-bottom: 1px solid #ddd8cc; padding-bottom: 2mm; }
            .scroll { overflow-x: auto; }
            @media print { thead { display: table-header-group; } }
            """;

    private AnswerHtml() {}

    /** Returns the file. */
    public static byte[] write(Answer answer) {
        Xml xml = new Xml();
        xml.tag("<!DOCTYPE html>\n<html lang=\"" + Xml.escaped(answer.language()) + "\">\n<head>\n")
                .tag("<meta charset=\"UTF-8\"/>\n")
                .tag("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n")
                .element("<title>", answer.title(), "title")
                .tag("<style>\n" + style() + READABLE + "</style>\n</head>\n<body>\n")
                .element("<p class=\"state\">", identity(answer), "p");
        Markup.write(
                answer.blocks(),
                xml,
                (target, chart) -> target.tag("<img width=\"100%\" alt=\"" + Xml.escaped(chart.description())
                        + "\" src=\"data:image/svg+xml;base64,"
                        + base64(Svg.of(chart, WIDTH, HEIGHT).getBytes(StandardCharsets.UTF_8)) + "\"/>\n"),
                true);
        for (Attachment attachment : answer.attachments()) {
            xml.tag("<p><a download=\"" + Xml.escaped(attachment.name()) + "\" title=\""
                            + Xml.escaped(attachment.description()) + "\" href=\"data:application/json;base64,"
                            + base64(attachment.content()) + "\">")
                    .text(attachment.description())
                    .tag("</a></p>\n");
        }
        return xml.tag("</body>\n</html>\n").toString().getBytes(StandardCharsets.UTF_8);
    }

    /** Returns the data inside a file that {@link #write} made; empty when there is none. */
    static List<Attachment> inside(byte[] file) {
        List<Attachment> found = new ArrayList<>();
        Matcher matcher = DATA.matcher(new String(file, StandardCharsets.UTF_8));
        while (matcher.find()) {
            try {
                byte[] content = Base64.getDecoder().decode(matcher.group(3));
                found.add(new Attachment(matcher.group(1), matcher.group(2), content));
            } catch (IllegalArgumentException e) {
                // not what was written: the data counts as absent
                return List.of();
            }
        }
        return found;
    }

    static String identity(Answer answer) {
        return answer.title() + " \u00b7 " + answer.state() + " \u00b7 " + answer.program() + " \u00b7 "
                + answer.fingerprint();
    }

    static String style() {
        return new String(resource("answer.css"), StandardCharsets.UTF_8);
    }

    static byte[] resource(String name) {
        try (InputStream stream = AnswerHtml.class.getResourceAsStream(name)) {
            if (stream == null) {
                throw new IllegalStateException("the program is incomplete: " + name + " is missing");
            }
            return stream.readAllBytes();
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static String base64(byte[] bytes) {
        return Base64.getEncoder().encodeToString(bytes);
    }
}
