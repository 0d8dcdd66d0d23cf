package slowproof.report.answer;

import java.util.ArrayList;
import java.util.List;

/**
 * Parts of a document that stay on one page: a heading with the chart, the short table or the first lines that follow it,
 * so that no heading ends a page and no short table is torn.
 *
 * @param blocks parts in reading order
 * @param kept whether they stay on one page
 */
record Together(List<Block> blocks, boolean kept) {
    /** Rows of a table that still stays whole; more would leave too much of a page empty. */
    private static final int SHORT_TABLE = 12;

    /** Labelled rows or marked sentences of a list that still stays whole. */
    private static final int SHORT_LIST = 5;

    /** Returns the groups of a document, in reading order. */
    static List<Together> of(List<Block> blocks) {
        List<Together> groups = new ArrayList<>();
        int from = 0;
        while (from < blocks.size()) {
            int end = keptEnd(blocks, from);
            groups.add(
                    end > from
                            ? new Together(blocks.subList(from, end), true)
                            : new Together(blocks.subList(from, from + 1), false));
            from = Math.max(end, from + 1);
        }
        return groups;
    }

    /** Returns the end of the group that begins at a place, the place itself when none does. */
    private static int keptEnd(List<Block> blocks, int from) {
        int at = from;
        while (at < blocks.size() && blocks.get(at) instanceof Block.Heading) {
            at++;
        }
        if (at == from) {
            return from;
        }
        int afterHeadings = at;
        while (at < blocks.size() && at < afterHeadings + 2 && blocks.get(at) instanceof Block.Paragraph) {
            at++;
        }
        if (at == blocks.size()) {
            return at;
        }
        Block next = blocks.get(at);
        boolean shortTable = next instanceof Block.Table table && table.rows().size() <= SHORT_TABLE;
        if (shortTable) {
            // what is said of a table right below it is read with it
            return at + 1 < blocks.size() && blocks.get(at + 1) instanceof Block.Paragraph ? at + 2 : at + 1;
        }
        if (next instanceof Block.Picture) {
            return at + 1;
        }
        if (next instanceof Block.Labelled || next instanceof Block.Marked) {
            int end = at;
            while (end < blocks.size() && blocks.get(end).getClass() == next.getClass()) {
                end++;
            }
            // a longer list flows on; its heading asks for room of its own
            return end - at <= SHORT_LIST ? end : from;
        }
        return at > afterHeadings ? at : from;
    }
}
