package slowproof.trial.findings;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Exclusion;
import slowproof.trial.IndicatedSpeed;
import slowproof.trial.Piece;
import slowproof.trial.ReadingMode;
import slowproof.trial.RecordedPass;
import slowproof.trial.Series;
import slowproof.trial.Standstill;
import slowproof.trial.Trial;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.InputProblem;
import slowproof.trial.input.ProblemCode;

/** Makes the passes of a trial: readings in file order, then recordings, then pieces. */
final class Passes {
    private static final int FULL_DECIMALS = 9;

    private final Trial trial;
    private final double temperatureFactor;
    private final Map<String, String> exclusions = new HashMap<>();
    private final List<Pass> passes = new ArrayList<>();

    private Passes(Trial trial) {
        this.trial = trial;
        this.temperatureFactor = trial.setup().temperatureFactor();
    }

    /**
     * Returns the passes of a trial.
     *
     * @throws BadInputException if an exclusion names a pass that does not exist
     */
    static List<Pass> of(Trial trial) {
        Passes maker = new Passes(trial);
        for (Exclusion exclusion : trial.exclusions()) {
            maker.exclusions.put(exclusion.pass(), exclusion.reason());
        }
        trial.series().forEach(maker::addSeries);
        maker.addRecorded(trial.recorded());
        trial.pieces().forEach(maker::addPiece);
        maker.refuseUnknownExclusions();
        return List.copyOf(maker.passes);
    }

    private void addSeries(Series series) {
        List<Standstill> rows = series.standstills();
        boolean zeroed = trial.mode() == ReadingMode.ZEROED;
        for (int i = 1; i < rows.size(); i++) {
            Standstill from = rows.get(i - 1);
            Standstill to = rows.get(i);
            double indication = zeroed ? to.readingMm() : to.readingMm() - from.readingMm();
            add(
                    series.name(),
                    i,
                    i > 1 && !zeroed,
                    series.material(),
                    series.setup(),
                    series.speedMmPerS(),
                    null,
                    series.accelerationMmPerS2(),
                    to.referenceMm() - from.referenceMm(),
                    indication,
                    Math.max(from.decimals(), to.decimals()),
                    to.dropoutPercent(),
                    shown(to),
                    0,
                    to,
                    Set.of());
        }
    }

    private static @Nullable IndicatedSpeed shown(Standstill row) {
        Double indicated = row.indicatedSpeedMmPerS();
        Double reference = row.referenceSpeedMmPerS();
        return indicated == null || reference == null
                ? null
                : new IndicatedSpeed((indicated - reference) / reference, null, null);
    }

    private void addRecorded(List<RecordedPass> recorded) {
        List<Double> groups = PlateauGroups.speeds(recorded);
        Map<String, Integer> numbers = new HashMap<>();
        for (int i = 0; i < recorded.size(); i++) {
            RecordedPass pass = recorded.get(i);
            add(
                    pass.recording(),
                    numbers.merge(pass.recording(), 1, Integer::sum),
                    pass.joined(),
                    pass.material(),
                    pass.setup(),
                    groups.get(i),
                    pass.plateauSpeedMmPerS(),
                    pass.accelerationMmPerS2(),
                    pass.referenceMm(),
                    pass.indicationMm(),
                    FULL_DECIMALS,
                    pass.dropoutPercent(),
                    pass.speed(),
                    pass.standstillDriftMm(),
                    null,
                    pass.flags().isEmpty() ? Set.of() : EnumSet.copyOf(pass.flags()));
        }
    }

    private void addPiece(Piece piece) {
        add(
                "pieces/" + piece.name(),
                0,
                false,
                piece.material(),
                "",
                piece.speedMmPerS(),
                null,
                null,
                piece.referenceMm(),
                piece.readingMm(),
                piece.decimals(),
                piece.dropoutPercent(),
                null,
                0,
                null,
                Set.of());
    }

    private void add(
            String series,
            int number,
            boolean sharesReading,
            String material,
            String setup,
            double speed,
            @Nullable Double plateau,
            @Nullable Double acceleration,
            double rawReference,
            double rawIndication,
            int rawDecimals,
            @Nullable Double dropout,
            @Nullable IndicatedSpeed shown,
            double standstillDriftMm,
            @Nullable Standstill end,
            Set<Flag> flags) {
        int decimals = temperatureFactor == 1 ? rawDecimals : FULL_DECIMALS;
        double reference = Decimals.scaled(rawReference * temperatureFactor, decimals);
        double indication = Decimals.scaled(rawIndication, decimals);
        double error = Decimals.scaled(Math.signum(reference) * (indication - reference), decimals);
        String id = number == 0 ? series : series + "/" + number;
        String excluded = exclusions.get(id);
        passes.add(new Pass(
                id,
                number == 0 ? "pieces" : series,
                Math.max(number, 1),
                sharesReading,
                material,
                setup,
                speed,
                plateau,
                acceleration,
                reference,
                indication,
                error,
                decimals,
                stepMm(rawDecimals),
                dropout,
                shown,
                standstillDriftMm,
                end == null ? null : end.time(),
                end == null ? "" : end.track(),
                excluded == null ? flags : Flags.with(flags, Flag.EXCLUDED),
                excluded));
    }

    /** A step of nine decimals is that of a computed figure, not of a display. */
    private double stepMm(int recordedDecimals) {
        Double count = trial.sensor().distancePerCountMm();
        Double display = trial.sensor().readingResolutionMm();
        double step = recordedDecimals == FULL_DECIMALS ? 0 : Math.pow(10, -recordedDecimals);
        return Math.max(step, Math.max(count == null ? 0 : count, display == null ? 0 : display));
    }

    private void refuseUnknownExclusions() {
        Set<String> ids = new HashSet<>();
        passes.forEach(pass -> ids.add(pass.id()));
        List<InputProblem> problems = new ArrayList<>();
        for (Exclusion exclusion : trial.exclusions()) {
            if (!ids.contains(exclusion.pass())) {
                String first = passes.isEmpty() ? "" : passes.get(0).id();
                problems.add(
                        InputProblem.of(ProblemCode.EXCLUDED_PASS_UNKNOWN, exclusion.at(), exclusion.pass(), first));
            }
        }
        if (!problems.isEmpty()) {
            throw new BadInputException(problems);
        }
    }
}
