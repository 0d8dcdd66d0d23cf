package slowproof.files.log;

/** Cells as they may be shown in a message. */
final class Cells {
    private static final int LONGEST = 40;

    private Cells() {}

    /** Returns a cell shortened and with control characters made visible. */
    static String shown(String cell) {
        StringBuilder out = new StringBuilder();
        for (int i = 0; i < cell.length() && i < LONGEST; i++) {
            char c = cell.charAt(i);
            out.append(c < ' ' || c == '\u007f' ? '\u00b7' : c);
        }
        return cell.length() > LONGEST ? out.append('\u2026').toString() : out.toString();
    }
}
