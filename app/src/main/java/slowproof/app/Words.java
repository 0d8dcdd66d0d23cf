package slowproof.app;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** Builds the words of commands and reads them, the same option meaning the same everywhere. */
final class Words {
    private Words() {}

    /** Returns a command with its help option. */
    static CommandSpec command(String name, String example, String... description) {
        CommandSpec spec = CommandSpec.create().name(name);
        spec.usageMessage().description(description).footer("", "Example: " + example);
        return spec.addOption(OptionSpec.builder("-h", "--help")
                .usageHelp(true)
                .description("Shows this help.")
                .build());
    }

    /** Returns a command that also takes a language. */
    static CommandSpec speaking(CommandSpec spec) {
        return spec.addOption(OptionSpec.builder("--lang")
                .paramLabel("en|de")
                .type(Language.class)
                .description("Language of texts: en, de.")
                .build());
    }

    static PositionalParamSpec file(String label, String description) {
        return PositionalParamSpec.builder()
                .paramLabel(label)
                .type(String.class)
                .required(true)
                .description(description)
                .build();
    }

    static OptionSpec flag(String name, String description) {
        return OptionSpec.builder(name).description(description).build();
    }

    static OptionSpec path(String name, String label, String description) {
        return OptionSpec.builder(name)
                .paramLabel(label)
                .type(String.class)
                .description(description)
                .build();
    }

    static OptionSpec text(String name, String label, String... description) {
        return OptionSpec.builder(name)
                .paramLabel(label)
                .type(String.class)
                .description(description)
                .build();
    }

    /** Returns the text given with an option, or null. */
    static @Nullable String textOf(ParseResult words, String option) {
        return words.matchedOptionValue(option, (String) null);
    }

    static OptionSpec number(String name, String description) {
        return OptionSpec.builder(name)
                .paramLabel("N")
                .type(Integer.class)
                .description(description)
                .build();
    }

    /** Returns the path given with an option, or null. */
    static @Nullable Path pathOf(ParseResult words, String option) {
        String path = textOf(words, option);
        return path == null ? null : Path.of(path);
    }

    /** Returns the number given with an option, or null. */
    static @Nullable Integer numberOf(ParseResult words, String option) {
        return words.matchedOptionValue(option, (Integer) null);
    }

    /** Returns the only file named. */
    static Path fileOf(ParseResult words) {
        return Path.of(words.matchedPositionalValue(0, ""));
    }

    /** Makes the console speak the language asked for. */
    static void listen(ParseResult words, Console console) {
        Language language = words.matchedOptionValue("--lang", (Language) null);
        if (language != null) {
            console.speak(language);
        }
    }
}
