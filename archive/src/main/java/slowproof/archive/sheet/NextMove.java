package slowproof.archive.sheet;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Trial;
import slowproof.trial.evidence.PreferredSpeeds;
import slowproof.trial.findings.Answer;
import slowproof.trial.findings.Condition;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Flag;

/**
 * What to run next at the bench, as data. The speeds are those of a search by halves: it asks for the slowest
 * speed that holds and the fastest that fails, and then for one between them. It weighs no bench time.
 *
 * @param code what to do
 * @param speedMmPerS speed to run in mm/s, or null when it stays
 * @param lowMmPerS fastest speed that fails below it in mm/s, or null
 * @param highMmPerS slowest speed that holds above it in mm/s, or null
 * @param passes how many more passes per direction, or null
 */
public record NextMove(
        Code code,
        @Nullable Double speedMmPerS,
        @Nullable Double lowMmPerS,
        @Nullable Double highMmPerS,
        @Nullable Integer passes) {

    /** What to do. The key of each sentence in the message bundles is {@code next.} and {@link #key()}. */
    public enum Code {
        NAME_SERIES,
        FIRST_READING,
        FIRST_MOVE,
        COME_BACK,
        REPEAT,
        STATE_LIMIT,
        STATE_REFERENCE,
        BETTER_REFERENCE,
        MORE_PASSES,
        REPEATS_WILL_NOT_DO,
        GO_SLOWER,
        GO_FASTER,
        BETWEEN,
        NARROW_ENOUGH;

        /** Returns the code as key of the message bundles, lower_snake_case. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * Returns what to run next.
     *
     * @param sheet sheet
     * @param trial what it means
     * @param findings findings of that trial, or null while it has none
     */
    public static NextMove of(Sheet sheet, SheetTrial trial, @Nullable Findings findings) {
        Optional<SheetSeries> current = sheet.current();
        if (current.isEmpty()) {
            return just(Code.NAME_SERIES);
        }
        SheetSeries series = current.get();
        int moves = series.moves().size();
        if (moves == 0) {
            boolean started = sheet.facts().zeroed() || !series.readings().isEmpty();
            return just(started ? Code.FIRST_MOVE : Code.FIRST_READING);
        }
        if (!series.onward() && moves % 2 == 1) {
            return just(Code.COME_BACK);
        }
        Trial made = trial.trial();
        String name = trial.seriesNames().get(series.seq());
        if (findings == null || made == null || name == null) {
            return just(Code.REPEAT);
        }
        return made.series().stream()
                .filter(one -> one.name().equals(name))
                .findFirst()
                .map(one -> decided(findings, one.material(), one.speedMmPerS(), made))
                .orElseGet(() -> just(Code.REPEAT));
    }

    private static NextMove decided(Findings findings, String material, double speed, Trial trial) {
        List<Condition> leading = findings.leading(material);
        Optional<Condition> here = leading.stream()
                .filter(condition -> condition.key().speedMmPerS() == speed)
                .reduce((first, second) -> second);
        if (here.isEmpty()) {
            return just(Code.REPEAT);
        }
        Condition condition = here.get();
        if (trial.limit() == null) {
            return just(Code.STATE_LIMIT);
        }
        if (!trial.reference().hasUncertainty()) {
            return just(Code.STATE_REFERENCE);
        }
        if (condition.decision() == Answer.UNDECIDED) {
            return undecided(condition);
        }
        return search(leading);
    }

    private static NextMove undecided(Condition condition) {
        if (condition.flags().contains(Flag.REFERENCE_TOO_COARSE)) {
            return just(Code.BETTER_REFERENCE);
        }
        Integer more = condition.morePasses();
        if (more == null || condition.repeatability() == null) {
            return just(Code.REPEAT);
        }
        return more > 0 ? new NextMove(Code.MORE_PASSES, null, null, null, more) : just(Code.REPEATS_WILL_NOT_DO);
    }

    private static NextMove search(List<Condition> leading) {
        TreeMap<Double, Boolean> holds = new TreeMap<>();
        for (Condition condition : leading) {
            boolean held = condition.decision() == Answer.CONFORMS;
            if (held || condition.decision() == Answer.DOES_NOT_CONFORM) {
                holds.merge(condition.key().speedMmPerS(), held, Boolean::logicalAnd);
            }
        }
        Double failing = null;
        Double holding = null;
        for (Map.Entry<Double, Boolean> tested : holds.descendingMap().entrySet()) {
            if (!tested.getValue()) {
                failing = tested.getKey();
                break;
            }
            holding = tested.getKey();
        }
        if (holding == null) {
            double fastest = holds.lastKey();
            return new NextMove(Code.GO_FASTER, PreferredSpeeds.nearest(2 * fastest), fastest, null, null);
        }
        if (failing == null) {
            return new NextMove(Code.GO_SLOWER, PreferredSpeeds.nearest(holding / 2), null, holding, null);
        }
        if (holding / failing < PreferredSpeeds.NARROW) {
            return new NextMove(Code.NARROW_ENOUGH, null, failing, holding, null);
        }
        double between = PreferredSpeeds.between(failing, holding);
        return new NextMove(Code.BETWEEN, between, failing, holding, null);
    }

    private static NextMove just(Code code) {
        return new NextMove(code, null, null, null, null);
    }
}
