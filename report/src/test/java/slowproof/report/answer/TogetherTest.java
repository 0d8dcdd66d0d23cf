package slowproof.report.answer;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class TogetherTest {
    private static final Block HEADING = new Block.Heading(2, "heading");
    private static final Block TEXT = new Block.Paragraph("text");

    private static Block table(int rows) {
        List<List<String>> cells = new ArrayList<>();
        for (int row = 0; row < rows; row++) {
            cells.add(List.of("cell"));
        }
        return new Block.Table(List.of(new Block.Column("head", "", false)), cells);
    }

    private static List<Integer> kept(Block... blocks) {
        return Together.of(List.of(blocks)).stream()
                .filter(Together::kept)
                .map(group -> group.blocks().size())
                .toList();
    }

    @Test
    void aHeadingStaysWithTheShortTableAfterItAndWhatIsSaidOfIt() {
        assertThat(kept(TEXT, HEADING, TEXT, table(5), table(300))).containsExactly(3);
        assertThat(kept(TEXT, HEADING, TEXT, table(5), TEXT, TEXT)).containsExactly(4);
    }

    @Test
    void aLongTableFlowsOverPages() {
        assertThat(kept(HEADING, table(300))).isEmpty();
    }

    @Test
    void aHeadingStaysWithTheTextAfterIt() {
        assertThat(kept(HEADING, TEXT, HEADING, TEXT)).containsExactly(2, 2);
    }

    @Test
    void everyPartIsThereOnceAndInOrder() {
        List<Block> blocks = new ArrayList<>();
        for (int i = 0; i < 60; i++) {
            blocks.add(
                    switch (i % 7) {
                        case 0, 3 -> new Block.Heading(2, "heading " + i);
                        case 1 -> new Block.Labelled("label " + i, "text");
                        case 2 -> new Block.Labelled("label " + i, "text");
                        case 4 -> table(i);
                        default -> new Block.Paragraph("text " + i);
                    });
        }
        List<Block> found = new ArrayList<>();
        Together.of(blocks).forEach(group -> found.addAll(group.blocks()));
        assertThat(found).isEqualTo(blocks);
    }
}
