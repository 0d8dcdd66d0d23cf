package slowproof.report.answer;

/** Sizes of a page. */
public enum Paper {
    /** ISO 216 A4, 210 mm by 297 mm. */
    A4("A4"),
    /** 8.5 in by 11 in. */
    LETTER("letter");

    private final String css;

    Paper(String css) {
        this.css = css;
    }

    String css() {
        return css;
    }
}
