package slowproof.wording;

import org.jspecify.annotations.Nullable;
import slowproof.trial.findings.Condition;

/**
 * The numbers of one condition as text, each rounded to the place of its uncertainty's second digit (JCGM
 * 100:2008, 7.2.6). Without a unit unless said.
 */
public final class Figures {
    /** Significant digits of an error of which no uncertainty is known. */
    private static final int DIGITS_WITHOUT_UNCERTAINTY = 3;

    private final Condition condition;
    private final Wording wording;
    private final Numbers numbers;
    private final int percentDecimals;

    /** Creates the figures of a condition. */
    public Figures(Condition condition, Wording wording) {
        this.condition = condition;
        this.wording = wording;
        this.numbers = wording.numbers();
        this.percentDecimals = Numbers.decimalsFor(100 * condition.expandedUncertainty());
    }

    /** Returns true when the budget has any line, so that there is an uncertainty to state. */
    public boolean hasUncertainty() {
        return condition.expandedUncertainty() > 0;
    }

    /** Returns the mean error in percent, with its sign. */
    public String errorPercent() {
        double percent = 100 * condition.meanError();
        return hasUncertainty() ? numbers.signed(percent, percentDecimals) : rough(percent);
    }

    /** Returns the mean error with its sign and unit: mm, or inches where these are preferred. */
    public String errorLength() {
        Units.Length unit = wording.units().smallLength();
        double error = unit.fromMm(condition.meanErrorMm());
        double uncertainty = unit.fromMm(condition.expandedUncertainty() * condition.meanLengthMm());
        String number = hasUncertainty() ? numbers.signed(error, Numbers.decimalsFor(uncertainty)) : rough(error);
        return number + " " + unit.symbol();
    }

    /** Returns the mean length of the passes with its unit. */
    public String length() {
        Units.Length unit = wording.units().length();
        return numbers.plain(unit.fromMm(condition.meanLengthMm())) + " " + unit.symbol();
    }

    private String rough(double value) {
        String text = numbers.plain(value, DIGITS_WITHOUT_UNCERTAINTY);
        return value > 0 ? "+" + text : text;
    }

    /** Returns the expanded uncertainty in percent; empty when nothing is known of it. */
    public String uncertaintyPercent() {
        return hasUncertainty() ? numbers.fixed(100 * condition.expandedUncertainty(), percentDecimals) : "";
    }

    /** Returns the limit in percent, without plus or minus; empty without a limit. */
    public String limitPercent() {
        Double limit = condition.limit();
        if (limit == null) {
            return "";
        }
        return hasUncertainty()
                ? numbers.fixed(100 * limit, Math.max(percentDecimals, 2))
                : numbers.plain(100 * limit, DIGITS_WITHOUT_UNCERTAINTY);
    }

    /**
     * Returns the repeatability in percent with two significant digits; empty when nothing was repeated, or when all
     * passes repeat exactly and the scatter is therefore only known to be smaller than the readings show.
     */
    public String repeatabilityPercent() {
        Double ratio = condition.repeatability();
        return ratio == null || ratio == 0 ? "" : numbers.fixed(100 * ratio, Numbers.decimalsFor(100 * ratio));
    }

    /** Returns the coverage factor. */
    public String coverageFactor() {
        return numbers.fixed(condition.coverageFactor(), 2);
    }

    /** Returns the probability that the mean error lies inside the limit, in percent; empty when unknown. */
    public String meanProbability() {
        return probability(condition.conformanceProbability());
    }

    /** Returns the probability that a future pass lies inside the limit, in percent; empty when unknown. */
    public String singlePassProbability() {
        return probability(condition.singlePassProbability());
    }

    private String probability(@Nullable Double probability) {
        return probability == null ? "" : numbers.probabilityPercent(probability);
    }

    /** Returns the programmed speed. */
    public String speed() {
        return wording.units().speedNumber(condition.key().speedMmPerS(), numbers);
    }
}
