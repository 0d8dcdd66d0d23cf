package slowproof.app.text;

import java.util.List;

/** A page as it grows: headings, sentences, lists, tables. */
interface Page {
    /** How a mark looks where there is colour; the mark itself says the same without it. */
    enum Tone {
        PLAIN,
        GOOD,
        OPEN,
        BAD
    }

    /** Writes the title of the whole. */
    void title(String text);

    /** Writes a term that the next paragraph explains. */
    void term(String text);

    /** Begins a section. */
    void heading(String text);

    /** Writes a paragraph. */
    void paragraph(String text);

    /** Writes a label and beside it what it stands for; labels of one list have the width of the widest. */
    void labelled(String label, int labelWidth, String text);

    /** Writes a marked sentence. */
    void bullet(String mark, Tone tone, String text);

    /** Writes a table and returns the heads of columns that found no room, which it names. */
    List<String> table(TextTable table);
}
