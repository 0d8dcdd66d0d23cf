package slowproof.report.chart;

import java.awt.Font;
import java.awt.FontFormatException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;

/**
 * The face of charts. It comes with the program: with a face of the platform, words would have other widths on another
 * machine, and the same chart other lines.
 */
public final class Face {
    /** Name under which a painter of text finds the face. */
    public static final String FAMILY = "DejaVu Serif Condensed";

    private static final Font PLAIN = load("DejaVuSerifCondensed.ttf");
    private static final Font BOLD = load("DejaVuSerifCondensed-Bold.ttf");

    private Face() {}

    static Font plain(float size) {
        return PLAIN.deriveFont(size);
    }

    static Font bold(float size) {
        return BOLD.deriveFont(size);
    }

    private static Font load(String file) {
        try (InputStream stream = Face.class.getResourceAsStream("/slowproof/report/answer/" + file)) {
            if (stream == null) {
                throw new IllegalStateException("the program is incomplete: " + file + " is missing");
            }
            return Font.createFont(Font.TRUETYPE_FONT, stream);
        } catch (FontFormatException e) {
            throw new IllegalStateException("the program is damaged: " + file + " is no font", e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
