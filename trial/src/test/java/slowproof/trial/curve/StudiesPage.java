package slowproof.trial.curve;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The page {@code docs/studies.md}: text written by hand around blocks of figures that the long studies write, each
 * between {@code <!-- study: NAME -->} and {@code <!-- end of study: NAME -->}.
 */
public final class StudiesPage {
    private StudiesPage() {}

    /** Replaces the block of that name. */
    public static void write(String block, List<String> lines) {
        Path page = page();
        Matcher matcher = find(block);
        String text = read(page);
        try {
            Files.writeString(
                    page,
                    text.substring(0, matcher.end(1)) + String.join("\n", lines) + "\n"
                            + text.substring(matcher.start(3)));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Returns the lines of the block of that name. */
    public static List<String> lines(String block) {
        return find(block).group(2).lines().toList();
    }

    private static Matcher find(String block) {
        String name = Pattern.quote(block);
        Matcher matcher = Pattern.compile(
                        "(<!-- study: " + name + " -->\n)(.*?)(<!-- end of study: " + name + " -->)", Pattern.DOTALL)
                .matcher(read(page()));
        if (!matcher.find()) {
            throw new IllegalStateException(page() + " has no block " + block);
        }
        return matcher;
    }

    private static Path page() {
        return Path.of(System.getProperty("slowproof.root", ".."), "docs", "studies.md");
    }

    private static String read(Path page) {
        try {
            return Files.readString(page);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
