package slowproof.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class AnswerBundleTest {
    private static final Pattern PLACEHOLDER = Pattern.compile("\\{([0-9])");

    private static final Bundle ENGLISH = Bundle.load("answer.properties");
    private static final Bundle GERMAN = Bundle.load("answer_de.properties");

    @Test
    void bothLanguagesHaveTheSameKeys() {
        assertThat(GERMAN.keys()).isEqualTo(ENGLISH.keys());
    }

    @Test
    void noSentenceOfTheAnswerHidesAnother() {
        Set<String> both = new TreeSet<>(ENGLISH.keys());
        both.retainAll(Bundle.load("messages.properties").keys());
        assertThat(both).isEmpty();
    }

    @Test
    void bothLanguagesUseTheSameArguments() {
        for (String key : ENGLISH.keys()) {
            assertThat(arguments(GERMAN.find(key))).as(key).isEqualTo(arguments(ENGLISH.find(key)));
        }
    }

    private static Set<String> arguments(String pattern) {
        return PLACEHOLDER
                .matcher(pattern)
                .results()
                .map(found -> found.group(1))
                .collect(Collectors.toSet());
    }
}
