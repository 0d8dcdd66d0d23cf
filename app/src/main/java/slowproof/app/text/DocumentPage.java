package slowproof.app.text;

import java.util.ArrayList;
import java.util.List;
import slowproof.report.answer.Block;

/** The page as parts of a document. */
final class DocumentPage implements Page {
    private final List<Block> blocks = new ArrayList<>();

    /** Returns what was written so far. */
    List<Block> blocks() {
        return blocks;
    }

    /** Adds a part as it is. */
    void add(Block block) {
        blocks.add(block);
    }

    @Override
    public void title(String text) {
        blocks.add(new Block.Heading(1, text));
    }

    @Override
    public void term(String text) {
        blocks.add(new Block.Heading(3, text));
    }

    @Override
    public void heading(String text) {
        blocks.add(new Block.Heading(2, text));
    }

    @Override
    public void paragraph(String text) {
        blocks.add(new Block.Paragraph(text));
    }

    @Override
    public void labelled(String label, int labelWidth, String text) {
        blocks.add(new Block.Labelled(label, text));
    }

    @Override
    public void bullet(String mark, Tone tone, String text) {
        // the face of the document has no ticks and crosses
        String drawn = mark.equals("\u2713") ? "+" : mark.equals("\u2717") ? "\u00d7" : mark;
        blocks.add(new Block.Marked(drawn, Block.Tone.valueOf(tone.name()), text));
    }

    @Override
    public List<String> table(TextTable table) {
        blocks.add(table.block());
        return List.of();
    }
}
