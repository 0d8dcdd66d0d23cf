package slowproof.archive.summary;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.sheet.SheetSeries;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Standing;

/** What a trial waits for, the most urgent first. The key of each word in the message bundles is {@code attention.} and {@link #key()}. */
public enum Attention {
    /** The carriage went out and has not come back: somebody is in the middle of it. */
    HALF_WAY(1),
    /** Nothing was read yet. */
    BEGUN(2),
    /** No limit is stated, so nothing can be decided. */
    NO_LIMIT(3),
    /** The uncertainty of the reference is unknown, so nothing can be decided. */
    NO_REFERENCE(4),
    /** Some surface is neither shown to hold nor to fail. */
    UNDECIDED(5),
    /** Nothing. */
    NONE(6);

    private final int urgency;

    Attention(int urgency) {
        this.urgency = urgency;
    }

    /** Returns the place among all, 1 for what is most urgent. */
    public int urgency() {
        return urgency;
    }

    /** Returns the word written in the archive, lower_snake_case. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Returns what a trial waits for. */
    static Attention of(Sheet sheet, @Nullable Findings findings) {
        if (findings == null) {
            return BEGUN;
        }
        if (sheet.current().filter(Attention::isOut).isPresent()) {
            return HALF_WAY;
        }
        if (findings.trial().limit() == null) {
            return NO_LIMIT;
        }
        if (!findings.trial().reference().hasUncertainty()) {
            return NO_REFERENCE;
        }
        boolean open = findings.materials().stream()
                .map(material -> findings.singlePassAnswers(material.material()).values())
                .anyMatch(answers -> Standing.of(answers) == Standing.UNDECIDED);
        return open ? UNDECIDED : NONE;
    }

    private static boolean isOut(SheetSeries series) {
        return !series.onward() && series.moves().size() % 2 == 1;
    }
}
