package slowproof.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PagesBundleTest {
    private static final Pattern PLACEHOLDER = Pattern.compile("\\{([0-9])");

    @ParameterizedTest
    @ValueSource(strings = {"pages", "desk"})
    void bothLanguagesHaveTheSameKeysAndArguments(String file) {
        Bundle english = Bundle.load(file + ".properties");
        Bundle german = Bundle.load(file + "_de.properties");
        assertThat(german.keys()).isEqualTo(english.keys());
        for (String key : english.keys()) {
            assertThat(arguments(german.find(key))).as(key).isEqualTo(arguments(english.find(key)));
        }
    }

    @Test
    void noPageSentenceHidesAnother() {
        Set<String> known = new TreeSet<>(Bundle.load("messages.properties").keys());
        for (String file : List.of("pages.properties", "desk.properties")) {
            for (String key : Bundle.load(file).keys()) {
                assertThat(known.add(key)).as(key).isTrue();
            }
        }
    }

    @Test
    void germanHasItsOwnQuotationMarks() {
        Bundle german = Bundle.load("desk_de.properties");
        for (String key : german.keys()) {
            assertThat(german.find(key)).as(key).doesNotContain("\"");
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
