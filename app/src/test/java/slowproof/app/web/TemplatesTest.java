package slowproof.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.NextMove;
import slowproof.archive.typed.NotUnderstoodException;
import slowproof.trial.input.ProblemCode;
import slowproof.wording.Wording;

/** Every word on the pages comes from the bundles, and every bundle key that the pages use exists. */
class TemplatesTest {
    private static final Path TEMPLATES = Path.of(System.getProperty("slowproof.root", ".."), "app/src/main/jte");
    private static final Pattern LETTERS = Pattern.compile("\\p{L}{2,}");
    private static final Pattern FIXED_KEY = Pattern.compile("say\\(\"([a-z_.0-9]+)\"[,)]");

    private static List<Path> templates() throws IOException {
        try (Stream<Path> all = Files.walk(TEMPLATES)) {
            return all.filter(path -> path.toString().endsWith(".jte")).toList();
        }
    }

    @Test
    void templatesHoldNoWordsOfTheirOwn() throws IOException {
        assertThat(templates()).isNotEmpty();
        for (Path template : templates()) {
            String text = Files.readString(template);
            text = text.replaceAll("(?m)^@(import|param) .*$", "");
            text = without(text, "${", '{', '}');
            text = without(text, "!{", '{', '}');
            for (String call : List.of("@template", "@if", "@elseif", "@for")) {
                text = without(text, call, '(', ')');
            }
            text = text.replaceAll("@(endif|endfor|else)", "");
            text = text.replaceAll("(?s)<[^>]*>", "");
            Matcher stray = LETTERS.matcher(text);
            assertThat(stray.find()).as("%s: %s", template, text.strip()).isFalse();
        }
    }

    /** Cuts out everything from a mark to the end of the bracket that it opens. */
    private static String without(String text, String mark, char open, char close) {
        StringBuilder left = new StringBuilder();
        int at = 0;
        for (int from = text.indexOf(mark); from >= 0; from = text.indexOf(mark, at)) {
            left.append(text, at, from);
            int depth = 0;
            int i = text.indexOf(open, from);
            do {
                char c = text.charAt(i++);
                depth += c == open ? 1 : c == close ? -1 : 0;
            } while (depth > 0);
            at = i;
        }
        return left.append(text.substring(at)).toString();
    }

    @Test
    void everyKeyExists() throws IOException {
        Wording wording = Wording.of(Locale.ENGLISH).withPages();
        Set<String> keys = new TreeSet<>();
        for (Path template : templates()) {
            Matcher key = FIXED_KEY.matcher(Files.readString(template));
            while (key.find()) {
                keys.add(key.group(1));
            }
        }
        for (FactName name : FactName.values()) {
            keys.add("fact." + name.key());
            name.choices()
                    .forEach(choice -> keys.add("choice." + name.key() + "." + (choice.isEmpty() ? "none" : choice)));
        }
        for (NextMove.Code code : NextMove.Code.values()) {
            keys.add("next." + code.key());
        }
        for (NotUnderstoodException.Why why : NotUnderstoodException.Why.values()) {
            keys.add("typed." + why.key());
        }
        for (ProblemCode code : ProblemCode.values()) {
            if (code.isQuestion()) {
                keys.add("ask." + code.key());
            }
        }
        keys.removeIf(key -> key.endsWith("."));
        assertThat(keys)
                .hasSizeGreaterThan(150)
                .allSatisfy(key -> assertThat(wording.has(key)).as(key).isTrue());
    }
}
