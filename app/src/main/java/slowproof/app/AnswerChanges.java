package slowproof.app;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import slowproof.files.out.JsonLeaves;
import slowproof.report.answer.Block;
import slowproof.wording.Wording;

/** What an amendment says about the document that it supersedes: which one, and which figures differ. */
final class AnswerChanges {
    private static final int LISTED = 40;

    /** What is listed first, when there is more than is listed: what was measured, then what follows from it. */
    private static final List<String> FIRST = List.of("passes[", "conditions[", "materials[");

    private static final Pattern ELEMENT = Pattern.compile("(passes|conditions)\\[[0-9]+]\\.");

    private AnswerChanges() {}

    /**
     * Returns the section.
     *
     * @param superseded the earlier document
     * @param figures the figures of the new one by place
     * @param wording wording with the sentences of the answer
     */
    static List<Block> of(WrittenAnswer.Superseded superseded, Map<String, String> figures, Wording wording) {
        List<JsonLeaves.Difference> differences =
                new ArrayList<>(JsonLeaves.differences(superseded.figures(), figures));
        differences.sort(Comparator.comparingInt(difference -> rank(difference.place())));
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Block.Heading(2, wording.text("written.supersedes")));
        if (!superseded.reason().isEmpty()) {
            blocks.add(new Block.Paragraph(
                    wording.text("written.supersedes.because", Wording.shown(superseded.reason()))));
        }
        if (differences.isEmpty()) {
            blocks.add(new Block.Paragraph(wording.text("written.supersedes.none", superseded.sha256())));
            return blocks;
        }
        blocks.add(
                new Block.Paragraph(wording.text("written.supersedes.says", superseded.sha256(), differences.size())));
        List<List<String>> rows = new ArrayList<>();
        for (JsonLeaves.Difference difference : differences.subList(0, Math.min(LISTED, differences.size()))) {
            rows.add(List.of(
                    called(difference.place(), superseded.figures(), figures),
                    shown(difference.one(), wording),
                    shown(difference.other(), wording)));
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

    private static int rank(String place) {
        for (int i = 0; i < FIRST.size(); i++) {
            if (place.startsWith(FIRST.get(i))) {
                return i;
            }
        }
        return FIRST.size();
    }

    /** Names the pass or the condition beside its number in the list: a reader of the document has no other list. */
    private static String called(String place, Map<String, String> before, Map<String, String> now) {
        Matcher element = ELEMENT.matcher(place);
        if (!element.lookingAt()) {
            return place;
        }
        Map<String, String> figures = now.containsKey(place) ? now : before;
        String start = element.group();
        String id = figures.get(start + "id");
        String name = id != null
                ? id
                : figures.get(start + "material") + ", " + figures.get(start + "speed_mm_s") + " mm/s, "
                        + figures.get(start + "direction");
        return place + " (" + Wording.shown(name) + ")";
    }

    private static String shown(@Nullable String value, Wording wording) {
        return value == null ? wording.text("written.verify.absent") : Wording.shown(value);
    }
}
