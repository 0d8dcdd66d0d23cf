package slowproof.app.web;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.Utf8ByteOutput;
import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;

/** Renders the templates, which were compiled when the program was built. */
final class Templates {
    private final TemplateEngine engine = TemplateEngine.createPrecompiled(
            null, ContentType.Html, Templates.class.getClassLoader(), "slowproof.app.web.templates");

    /** Answers with a page. */
    void send(Context context, String template, Map<String, Object> parameters) {
        Utf8ByteOutput output = new Utf8ByteOutput();
        engine.render(template, parameters, output);
        ByteArrayOutputStream page = new ByteArrayOutputStream(output.getContentLength());
        try {
            output.writeTo(page);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        context.contentType("text/html; charset=utf-8").result(page.toByteArray());
    }
}
