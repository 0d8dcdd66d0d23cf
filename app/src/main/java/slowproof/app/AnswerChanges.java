package slowproof.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.files.out.JsonLeaves;
import slowproof.report.answer.Block;
import slowproof.wording.Wording;

/** What an amendment says about the document that it supersedes: which one, and which figures differ. */
final class AnswerChanges {
    private static final int LISTED = 40;

    private AnswerChanges() {}

    /**
     * Returns the section.
     *
     * @param superseded the earlier document
     * @param figures the figures of the new one by place
     * @param wording wording with the sentences of the answer
     */
    static List<Block> of(WrittenAnswer.Superseded superseded, Map<String, String> figures, Wording wording) {
        List<JsonLeaves.Difference> differences = JsonLeaves.differences(superseded.figures(), figures);
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Block.Heading(2, wording.text("written.supersedes")));
        if (differences.isEmpty()) {
            blocks.add(new Block.Paragraph(wording.text("written.supersedes.none", superseded.sha256())));
            return blocks;
        }
        blocks.add(
                new Block.Paragraph(wording.text("written.supersedes.says", superseded.sha256(), differences.size())));
        List<List<String>> rows = new ArrayList<>();
        for (JsonLeaves.Difference difference : differences.subList(0, Math.min(LISTED, differences.size()))) {
            rows.add(List.of(difference.place(), shown(difference.one(), wording), shown(difference.other(), wording)));
        }
        blocks.add(new Block.Table(
                List.of(
                        new Block.Column(wording.text("written.supersedes.place"), "", false),
                        new Block.Column(wording.text("written.supersedes.before"), "", false),
                        new Block.Column(wording.text("written.supersedes.now"), "", false)),
                rows));
        if (differences.size() > LISTED) {
            blocks.add(new Block.Paragraph(wording.text("written.supersedes.more", differences.size() - LISTED)));
        }
        return blocks;
    }

    private static String shown(@Nullable String value, Wording wording) {
        return value == null ? wording.text("written.verify.absent") : Wording.shown(value);
    }
}
