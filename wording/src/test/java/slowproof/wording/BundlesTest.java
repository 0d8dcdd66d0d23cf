package slowproof.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.BudgetSource;
import slowproof.trial.findings.Direction;
import slowproof.trial.findings.Flag;
import slowproof.trial.findings.ReasonCode;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.note.NoteCode;

class BundlesTest {
    private static final Wording ENGLISH = Wording.of(Locale.ENGLISH);
    private static final Wording GERMAN = Wording.of(Locale.GERMAN);
    private static final Pattern PLACEHOLDER = Pattern.compile("\\{(\\d)([|:?}])");

    /** A written figure with what follows it; figures inside words, dates, times and examples of typing are not meant. */
    private static final Pattern FIGURE =
            Pattern.compile("(?<![\\w.,{:\\-/+])\\d++(?:[.,]\\d++)?+(?!\\w|:|-\\d)(\\S*\\s*\\S*)");

    private static final Pattern UNIT =
            Pattern.compile("^(?:[ -]?[%°]| (?:mm|m|s|ppm|K|times?|mal|to|bis)\\b| mm/|-Fache|-mal).*");

    private static List<String> codes() {
        List<String> keys = new ArrayList<>();
        for (ProblemCode code : ProblemCode.values()) {
            keys.add("problem." + code.key());
        }
        for (NoteCode code : NoteCode.values()) {
            keys.add("note." + code.key());
        }
        for (Flag flag : Flag.values()) {
            keys.add("flag." + flag.key());
        }
        for (ReasonCode reason : ReasonCode.values()) {
            keys.add("reason." + reason.key());
        }
        for (BudgetSource source : BudgetSource.values()) {
            keys.add("source." + source.key());
        }
        for (Answer answer : Answer.values()) {
            keys.add("answer." + answer.key().replace(' ', '_'));
        }
        for (Direction direction : Direction.values()) {
            keys.add("direction." + direction.key());
        }
        return keys;
    }

    @Test
    void everyCodeHasASentenceInBothLanguages() {
        assertThat(ENGLISH.keys()).containsAll(codes());
        assertThat(GERMAN.keys()).containsAll(codes());
    }

    @Test
    void bothLanguagesHaveTheSameKeys() {
        assertThat(GERMAN.keys()).isEqualTo(ENGLISH.keys());
    }

    @Test
    void noKeyIsWrittenTwice() throws IOException {
        for (String file : List.of("messages.properties", "messages_de.properties")) {
            try (BufferedReader lines = new BufferedReader(
                    new InputStreamReader(Bundle.class.getResourceAsStream(file), StandardCharsets.UTF_8))) {
                assertThat(lines.lines()
                                .filter(line -> line.contains("=") && !line.startsWith("#"))
                                .map(line -> line.substring(0, line.indexOf('=')))
                                .toList())
                        .doesNotHaveDuplicates();
            }
        }
    }

    @Test
    void germanHasItsOwnQuotationMarksAndOneWordForAPass() {
        for (String key : GERMAN.keys()) {
            assertThat(GERMAN.pattern(key)).as(key).doesNotContain("\"").doesNotContainPattern("Durchl[a\u00e4]uf");
        }
    }

    @Test
    void bothLanguagesUseTheSameArguments() {
        for (String key : ENGLISH.keys()) {
            assertThat(arguments(GERMAN.pattern(key))).as(key).isEqualTo(arguments(ENGLISH.pattern(key)));
        }
    }

    @Test
    void argumentsAreNumberedWithoutGaps() {
        for (String key : ENGLISH.keys()) {
            Set<Integer> used = arguments(ENGLISH.pattern(key));
            int most = used.stream().mapToInt(index -> index + 1).max().orElse(0);
            assertThat(used).as(key).hasSize(most);
        }
    }

    @Test
    void everyPatternCanBeFilled() {
        for (Wording wording : List.of(ENGLISH, GERMAN)) {
            for (String key : wording.keys()) {
                Object[] counts = {1, 2, 3, 4, 5, 6, 7, 8, 9};
                assertThat(wording.text(key, counts)).as(key).doesNotContainPattern("\\{\\d");
            }
        }
    }

    @Test
    void noFigureStandsWithoutItsUnit() {
        for (Wording wording : List.of(ENGLISH, GERMAN)) {
            for (String key : wording.keys()) {
                // names of standards in brackets are not figures
                String text = wording.pattern(key).replaceAll("\\([A-Z]{2,} [^)]*\\)", "");
                Matcher figure = FIGURE.matcher(text);
                while (figure.find()) {
                    assertThat(figure.group(1)).as(key + ": " + figure.group()).matches(UNIT);
                }
            }
        }
    }

    private static Set<Integer> arguments(String pattern) {
        Set<Integer> found = new TreeSet<>();
        Matcher matcher = PLACEHOLDER.matcher(pattern);
        while (matcher.find()) {
            found.add(Integer.parseInt(matcher.group(1)));
        }
        return found;
    }
}
