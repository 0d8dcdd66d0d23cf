package slowproof.app.text;

import java.util.ArrayList;
import java.util.List;

/** Keeps the sentences of a page and leaves out headings and tables, for places that have their own. */
final class Sentences implements Page {
    private final List<String> all = new ArrayList<>();

    /** Returns the sentences in their order. */
    List<String> all() {
        return List.copyOf(all);
    }

    @Override
    public void title(String text) {}

    @Override
    public void term(String text) {}

    @Override
    public void heading(String text) {}

    @Override
    public void paragraph(String text) {
        all.add(text);
    }

    @Override
    public void labelled(String label, int labelWidth, String text) {
        all.add(label + ": " + text);
    }

    @Override
    public void bullet(String mark, Tone tone, String text) {
        all.add(text);
    }

    @Override
    public List<String> table(TextTable table) {
        return List.of();
    }
}
