package slowproof.metrology.reference;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Assumptions;

/**
 * The page {@code docs/validation.md}: text written by hand around blocks of figures written by tests.
 *
 * <p>A block stands between {@code <!-- figures: NAME -->} and {@code <!-- end of figures: NAME -->}. A test compares
 * its own figures with the block; run with {@code -Dslowproof.validation=write} it replaces the block instead.
 */
public final class ValidationPage {
    private static final Pattern FIGURE = Pattern.compile("-?\\d+(\\.\\d+)?");

    private ValidationPage() {}

    /**
     * Compares the rows with the block of that name, or writes them there when asked to.
     *
     * @param block name of the block
     * @param rows the lines that should stand there
     * @param slack how far the last cell of a row may differ, in its own unit; another processor may round the last
     *     bit of a logarithm differently
     */
    public static void compareOrWrite(String block, List<String> rows, double slack) {
        Path page = page();
        String text = read(page);
        Pattern area = Pattern.compile(
                "(<!-- figures: " + Pattern.quote(block) + " -->\n)(.*?)(<!-- end of figures: " + Pattern.quote(block)
                        + " -->)",
                Pattern.DOTALL);
        Matcher matcher = area.matcher(text);
        Assertions.assertThat(matcher.find())
                .as("%s has a block %s", page, block)
                .isTrue();
        if ("write".equals(System.getProperty("slowproof.validation"))) {
            write(
                    page,
                    text.substring(0, matcher.end(1)) + String.join("\n", rows) + "\n"
                            + text.substring(matcher.start(3)));
            return;
        }
        List<String> written = matcher.group(2).lines().toList();
        Assertions.assertThat(written.stream().map(ValidationPage::withoutLastCell))
                .as("block %s of %s; run with -Dslowproof.validation=write to renew it", block, page)
                .containsExactlyElementsOf(
                        rows.stream().map(ValidationPage::withoutLastCell).toList());
        for (int i = 0; i < rows.size(); i++) {
            compareLastCell(written.get(i), rows.get(i), slack);
        }
    }

    private static void compareLastCell(String written, String row, double slack) {
        String before = lastCell(written);
        String now = lastCell(row);
        if (FIGURE.matcher(before).matches() && FIGURE.matcher(now).matches()) {
            Assertions.assertThat(Double.parseDouble(now))
                    .as(row)
                    .isCloseTo(Double.parseDouble(before), Assertions.within(slack));
        } else {
            Assertions.assertThat(now).as(row).isEqualTo(before);
        }
    }

    private static String lastCell(String row) {
        int end = row.lastIndexOf('|');
        int start = row.lastIndexOf('|', end - 1);
        return start < 0 ? "" : row.substring(start + 1, end).strip();
    }

    private static String withoutLastCell(String row) {
        int end = row.lastIndexOf('|');
        int start = row.lastIndexOf('|', end - 1);
        return start < 0 ? row : row.substring(0, start);
    }

    private static Path page() {
        String root = System.getProperty("slowproof.root");
        Assumptions.assumeTrue(root != null && !root.isBlank(), "slowproof.root is not set: no page to compare with");
        return Path.of(String.valueOf(root), "docs", "validation.md");
    }

    private static String read(Path page) {
        try {
            return Files.readString(page);
        } catch (IOException e) {
            throw new UncheckedIOException(page.toString(), e);
        }
    }

    private static void write(Path page, String text) {
        try {
            Files.writeString(page, text);
        } catch (IOException e) {
            throw new UncheckedIOException(page.toString(), e);
        }
    }
}
