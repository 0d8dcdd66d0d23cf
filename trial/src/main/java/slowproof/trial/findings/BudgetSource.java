package slowproof.trial.findings;

import java.util.Locale;

/** Sources of uncertainty in the budget of a condition. */
public enum BudgetSource {
    REPEATABILITY_OF_THE_MEAN("repeatability of the mean"),
    REPEATABILITY_OF_ONE_PASS("repeatability of one pass"),
    REFERENCE("reference"),
    RESOLUTION("resolution"),
    MISALIGNMENT("misalignment"),
    TEMPERATURE("temperature"),
    ABBE("abbe offset"),
    STANDSTILL_DRIFT("standstill drift");

    private final String label;

    BudgetSource(String label) {
        this.label = label;
    }

    /** Returns the source as written in files. */
    public String label() {
        return label;
    }

    /** Returns the key of the message bundles. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
