package slowproof.app.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.security.SecureRandom;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.archive.Sending;
import slowproof.archive.typed.DecimalMark;
import slowproof.archive.typed.Typed;
import slowproof.wording.Wording;

/**
 * One request: who reads, in which language.
 *
 * @param context request and answer
 * @param wording language of the reader, sentences of the pages included
 */
record Visit(Context context, Wording wording) {
    private static final SecureRandom RANDOM = new SecureRandom();
    private static final String DESK_FORM = "[0-9a-f]{32}";
    private static final int LONGEST_FIELD = 4000;

    private static final String PERSON_HERE = System.getProperty("user.name", "");

    /** Returns the visit of a request: the language chosen on the page, else the one the browser asks for. */
    static Visit of(Context context) {
        return new Visit(context, wording(context));
    }

    static Wording wording(Context context) {
        String chosen = context.cookie("language");
        if (chosen == null) {
            chosen = preferred(context.header("Accept-Language"));
        }
        return Wording.of(chosen.equals("de") ? Locale.GERMAN : Locale.ENGLISH).withPages();
    }

    private static String preferred(@Nullable String header) {
        if (header == null || header.length() > 200) {
            return "en";
        }
        try {
            return Locale.LanguageRange.parse(header).stream()
                    .map(range -> range.getRange().split("-")[0])
                    .filter(language -> language.equals("de") || language.equals("en"))
                    .findFirst()
                    .orElse("en");
        } catch (IllegalArgumentException e) {
            return "en";
        }
    }

    /** Returns true for German. */
    boolean german() {
        return wording.locale().getLanguage().equals("de");
    }

    /** Returns a text as this reader types numbers: the decimal mark of the language, millimetres. */
    Typed typed(String text) {
        DecimalMark mark = german() ? DecimalMark.COMMA : DecimalMark.DOT;
        return new Typed(text, mark, Typed.NOTHING.lengthUnit(), Typed.NOTHING.speedUnit());
    }

    /** Returns a field of the form, empty when it was not sent; line ends as LF, at most 4000 characters. */
    String field(String name) {
        String value = context.formParam(name);
        if (value == null) {
            return "";
        }
        String unix = value.replace("\r\n", "\n");
        return unix.length() > LONGEST_FIELD ? unix.substring(0, LONGEST_FIELD) : unix;
    }

    /** Returns the fields of the form that have one of these names and were sent. */
    Map<String, String> fields(List<String> names) {
        Map<String, String> fields = new HashMap<>();
        for (String name : names) {
            if (context.formParam(name) != null) {
                fields.put(name, field(name));
            }
        }
        return fields;
    }

    /** Returns the owner of the drafts on the first page: this browser. Names it when it has no name yet. */
    String desk() {
        String desk = context.cookie("desk");
        if (desk == null || !desk.matches(DESK_FORM)) {
            desk = random();
            setCookie("desk", desk);
        }
        return "desk:" + desk;
    }

    void setCookie(String name, String value) {
        context.res()
                .addHeader("Set-Cookie", name + "=" + value + "; Path=/; Max-Age=31536000; SameSite=Strict; HttpOnly");
    }

    /** Returns the number of the last event on the page that the form stands on, or {@link Sending#ANYTHING}. */
    long seen() {
        String seen = field("seen");
        return seen.matches("[0-9]{1,18}") ? Long.parseLong(seen) : Sending.ANYTHING;
    }

    /** Returns who it is: the account, else the name of the person at this machine. */
    String who() {
        Reader reader = Reader.of(context);
        return reader.hasAccount() ? reader.name() : PERSON_HERE;
    }

    /** Returns a name for one form, so that sending it twice counts once. */
    static String random() {
        byte[] bytes = new byte[16];
        RANDOM.nextBytes(bytes);
        return HexFormat.of().formatHex(bytes);
    }

    /** Sends the browser to another page after something was recorded. */
    void goTo(String address) {
        context.redirect(address, HttpStatus.SEE_OTHER);
    }
}
