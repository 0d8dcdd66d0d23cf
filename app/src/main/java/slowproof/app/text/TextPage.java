package slowproof.app.text;

import java.util.ArrayList;
import java.util.List;
import slowproof.wording.Wording;

/** The page as lines of text for a terminal. */
final class TextPage implements Page {
    private static final String INDENT = "  ";
    private static final String UNITS =
            " % mm m in mm/s m/min ft/min mm/s\u00b2 ppm s ms h min Hz \u00b0C \u00b1 = mm/\u221am ";

    private static final String SIGNS = "\u00b1=<>\u00d7";

    private static String code(Tone tone) {
        return switch (tone) {
            case PLAIN -> "";
            case GOOD -> "\u001b[32m";
            case OPEN -> "\u001b[33m";
            case BAD -> "\u001b[31m";
        };
    }

    private static final String BOLD = "\u001b[1m";
    private static final String RESET = "\u001b[0m";

    private final StringBuilder out = new StringBuilder();
    private final Wording wording;
    private final boolean colour;
    private final int width;

    TextPage(Wording wording, boolean colour, int width) {
        this.wording = wording;
        this.colour = colour;
        this.width = Math.max(40, width);
    }

    @Override
    public void title(String text) {
        wrap(text, "", "", BOLD);
    }

    @Override
    public void term(String text) {
        out.append('\n');
        wrap(text, INDENT, INDENT, BOLD);
    }

    @Override
    public void heading(String text) {
        out.append('\n');
        wrap(text, "", "", BOLD);
    }

    @Override
    public void paragraph(String text) {
        wrap(text, INDENT, INDENT, "");
    }

    @Override
    public void labelled(String label, int labelWidth, String text) {
        String hanging = Cells.spaces(INDENT.length() + labelWidth + 2);
        wrap(text, INDENT + label + Cells.spaces(labelWidth - Cells.width(label) + 2), hanging, "");
    }

    @Override
    public void bullet(String mark, Tone tone, String text) {
        String first = INDENT + (colour && tone != Tone.PLAIN ? code(tone) + mark + RESET : mark) + " ";
        wrap(text, first, INDENT + Cells.spaces(Cells.width(mark) + 1), "");
    }

    @Override
    public List<String> table(TextTable table) {
        List<String> dropped = new ArrayList<>();
        List<String> lines = table.lines(width - INDENT.length(), dropped);
        boolean head = true;
        for (String line : lines) {
            out.append(INDENT)
                    .append(head && colour ? BOLD + line + RESET : line)
                    .append('\n');
            head = false;
        }
        if (!dropped.isEmpty()) {
            paragraph(wording.text("table.dropped", String.join(", ", dropped)));
        }
        return dropped;
    }

    private void wrap(String text, String first, String hanging, String style) {
        boolean styled = colour && !style.isEmpty();
        String lead = first;
        int room = width - Cells.width(hanging);
        StringBuilder line = new StringBuilder();
        int used = 0;
        for (String piece : pieces(text)) {
            int needed = Cells.width(piece);
            if (used > 0 && used + 1 + needed > room) {
                put(lead, line, styled ? style : "");
                lead = hanging;
                line.setLength(0);
                used = 0;
            }
            line.append(used > 0 ? " " : "").append(piece);
            used += needed + (used > 0 ? 1 : 0);
        }
        put(lead, line, styled ? style : "");
    }

    private void put(String lead, StringBuilder line, String style) {
        out.append(lead)
                .append(style)
                .append(line)
                .append(style.isEmpty() ? "" : RESET)
                .append('\n');
    }

    /** Splits at spaces, but keeps a number with its unit. */
    private static List<String> pieces(String text) {
        List<String> pieces = new ArrayList<>();
        String[] words = text.split(" ");
        for (String word : words) {
            if (word.isEmpty()) {
                continue;
            }
            int last = pieces.size() - 1;
            boolean unit = UNITS.contains(" " + bare(word) + " ");
            boolean afterSign = last >= 0 && endsWithSign(pieces.get(last));
            if (last >= 0 && (unit || afterSign)) {
                pieces.set(last, pieces.get(last) + " " + word);
            } else {
                pieces.add(word);
            }
        }
        return pieces;
    }

    private static boolean endsWithSign(String piece) {
        return SIGNS.indexOf(piece.charAt(piece.length() - 1)) >= 0;
    }

    private static String bare(String word) {
        int start = 0;
        int end = word.length();
        while (end > start && ",.;:)".indexOf(word.charAt(end - 1)) >= 0) {
            end--;
        }
        return word.substring(start, end);
    }

    @Override
    public String toString() {
        return out.toString();
    }
}
