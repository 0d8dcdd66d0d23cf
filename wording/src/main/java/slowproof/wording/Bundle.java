package slowproof.wording;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** The sentences of one language, read from a UTF-8 properties file beside this class. */
final class Bundle {
    private final Properties sentences;

    private Bundle(Properties sentences) {
        this.sentences = sentences;
    }

    static Bundle load(String file) {
        // a plain properties file: the platform's resource bundles look for more files and load more classes
        try (InputStream stream = Bundle.class.getResourceAsStream(file)) {
            if (stream == null) {
                throw new IllegalStateException("the program is incomplete: " + file + " is missing");
            }
            Properties sentences = new Properties();
            sentences.load(new InputStreamReader(stream, StandardCharsets.UTF_8));
            return new Bundle(sentences);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Nullable
    String find(String key) {
        return sentences.getProperty(key);
    }

    /** Returns these sentences and those of a further file. */
    private Bundle and(String file) {
        Properties both = new Properties();
        both.putAll(sentences);
        both.putAll(load(file).sentences);
        return new Bundle(both);
    }

    Set<String> keys() {
        return new TreeSet<>(sentences.stringPropertyNames());
    }

    /** One language is loaded only when it is asked for. */
    static final class English {
        static final Bundle BUNDLE = load("messages.properties");

        private English() {}
    }

    /** The sentences of the pages too, loaded only where there are pages. */
    static final class EnglishPages {
        static final Bundle BUNDLE = English.BUNDLE.and("pages.properties").and("desk.properties");

        private EnglishPages() {}
    }

    /** The sentences of the pages too, loaded only where there are pages. */
    static final class GermanPages {
        static final Bundle BUNDLE = German.BUNDLE.and("pages_de.properties").and("desk_de.properties");

        private GermanPages() {}
    }

    /** The sentences of the written answer too, loaded only where one is written. */
    static final class EnglishAnswer {
        static final Bundle BUNDLE = English.BUNDLE.and("answer.properties");

        private EnglishAnswer() {}
    }

    /** The sentences of the written answer too, loaded only where one is written. */
    static final class GermanAnswer {
        static final Bundle BUNDLE = German.BUNDLE.and("answer_de.properties");

        private GermanAnswer() {}
    }

    /** One language is loaded only when it is asked for. */
    static final class German {
        static final Bundle BUNDLE = load("messages_de.properties");

        private German() {}
    }
}
