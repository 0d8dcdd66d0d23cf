package slowproof.app.web;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import gg.jte.output.Utf8ByteOutput;
import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Renders the templates, which were compiled when the program was built. */
final class Templates {
    private static final Pattern POSTING_FORM = Pattern.compile("<form\\b[^>]*\\bmethod=\"post\"[^>]*>");

    private final TemplateEngine engine = TemplateEngine.createPrecompiled(
            null, ContentType.Html, Templates.class.getClassLoader(), "slowproof.app.web.templates");

    /** Answers with a page. */
    void send(Context context, String template, Map<String, Object> parameters) {
        String token = Reader.of(context).token();
        context.contentType("text/html; charset=utf-8");
        if (!token.isEmpty()) {
            StringOutput output = new StringOutput();
            engine.render(template, parameters, output);
            context.result(withToken(output.toString(), token));
            return;
        }
        Utf8ByteOutput output = new Utf8ByteOutput();
        engine.render(template, parameters, output);
        ByteArrayOutputStream page = new ByteArrayOutputStream(output.getContentLength());
        try {
            output.writeTo(page);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        context.result(page.toByteArray());
    }

    /** Here and not in each template, so that no form can forget it. */
    private static String withToken(String page, String token) {
        String field = "<input type=\"hidden\" name=\"" + Door.TOKEN_FIELD + "\" value=\"" + token + "\">";
        return POSTING_FORM.matcher(page).replaceAll(form -> Matcher.quoteReplacement(form.group() + field));
    }
}
