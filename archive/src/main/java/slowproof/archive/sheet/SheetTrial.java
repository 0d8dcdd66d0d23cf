package slowproof.archive.sheet;

import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import slowproof.archive.typed.Length;
import slowproof.archive.typed.NotUnderstoodException;
import slowproof.metrology.conformity.DecisionRule;
import slowproof.trial.Certificate;
import slowproof.trial.Exclusion;
import slowproof.trial.Limit;
import slowproof.trial.ReadingMode;
import slowproof.trial.RecordedPass;
import slowproof.trial.Reference;
import slowproof.trial.Sensor;
import slowproof.trial.Series;
import slowproof.trial.Setup;
import slowproof.trial.Standstill;
import slowproof.trial.StatedAccuracy;
import slowproof.trial.TapeClass;
import slowproof.trial.Trial;
import slowproof.trial.input.SourcePosition;

/**
 * What a sheet means: the trial to evaluate, and what had to be taken for granted to make it.
 *
 * @param trial the trial, or null while it has no move
 * @param readingOfPass number of the reading's event by pass id
 * @param seriesNames name of each series in the trial, by number of its event; series without a move are absent
 * @param displayStepMm step of the display read off the digits typed, in mm; null when it was stated or is unknown
 * @param flickerMm widest range typed, in mm; 0 when the display never flickered
 */
public record SheetTrial(
        @Nullable Trial trial,
        Map<String, Long> readingOfPass,
        Map<Long, String> seriesNames,
        @Nullable Double displayStepMm,
        double flickerMm) {
    /** Copies the maps. */
    public SheetTrial {
        readingOfPass = Map.copyOf(readingOfPass);
        seriesNames = Map.copyOf(seriesNames);
    }

    /**
     * Returns what a sheet means. What is not stated is absent, with two exceptions that make a result more
     * careful, never less: the step of the display is read off the digits typed, and a display that flickers
     * over a range counts as one that shows steps of that range.
     *
     * @param sheet sheet
     * @param unnamed word for a surface that nobody named
     * @param zone zone in which the times of the readings are written
     */
    public static SheetTrial of(Sheet sheet, String unnamed, ZoneId zone) {
        return of(sheet, unnamed, zone, List.of());
    }

    /**
     * Returns what a sheet with recordings means.
     *
     * @param recorded passes found in the recordings, in their order
     */
    public static SheetTrial of(Sheet sheet, String unnamed, ZoneId zone, List<RecordedPass> recorded) {
        return new Maker(sheet, unnamed, zone).make(recorded);
    }

    /** Returns the id of the pass that a reading ended, or null when it ended none. */
    public @Nullable String passOf(long reading) {
        return readingOfPass.entrySet().stream()
                .filter(entry -> entry.getValue() == reading)
                .map(Map.Entry::getKey)
                .findFirst()
                .orElse(null);
    }

    /** Works once and is dropped. */
    private static final class Maker {
        private final Sheet sheet;
        private final Facts facts;
        private final String unnamed;
        private final ZoneId zone;
        private final Map<String, Long> readingOfPass = new HashMap<>();
        private final Map<Long, String> names = new LinkedHashMap<>();
        private final Set<String> taken = new HashSet<>();
        private final List<Exclusion> exclusions = new ArrayList<>();
        private double finestStep = Double.POSITIVE_INFINITY;
        private double flicker;
        private @Nullable LocalDateTime lastTime;

        Maker(Sheet sheet, String unnamed, ZoneId zone) {
            this.sheet = sheet;
            this.facts = sheet.facts();
            this.unnamed = unnamed;
            this.zone = zone;
        }

        SheetTrial make(List<RecordedPass> recorded) {
            List<Series> series = new ArrayList<>();
            for (SheetSeries one : sheet.series()) {
                Series made = series(one);
                if (made != null) {
                    series.add(made);
                }
            }
            if (series.isEmpty() && recorded.isEmpty()) {
                return new SheetTrial(null, Map.of(), Map.of(), null, flicker);
            }
            Double stated = facts.value(FactName.RESOLUTION);
            boolean known = stated != null || facts.value(FactName.DISTANCE_PER_COUNT) != null;
            Double step = known || !Double.isFinite(finestStep) ? null : finestStep;
            Trial trial = new Trial(
                    sheet.title(),
                    sensor(stated != null ? stated : step),
                    reference(),
                    limit(),
                    stated(),
                    setup(),
                    rule(),
                    facts.zeroed() ? ReadingMode.ZEROED : ReadingMode.CUMULATIVE,
                    series,
                    recorded,
                    List.of(),
                    exclusions);
            return new SheetTrial(trial, readingOfPass, names, step, flicker);
        }

        private Sensor sensor(@Nullable Double step) {
            Double count = facts.value(FactName.DISTANCE_PER_COUNT);
            Double shown = step;
            double present = step != null ? step : count != null ? count : 0;
            if (flicker > present) {
                shown = flicker;
            }
            return new Sensor(facts.text(FactName.SENSOR_NAME), facts.text(FactName.SENSOR_SERIAL), count, null, shown);
        }

        private Reference reference() {
            String tape = facts.choice(FactName.TAPE_CLASS);
            return new Reference(
                    facts.text(FactName.REFERENCE_NAME),
                    Reference.Kind.valueOf(facts.choice(FactName.REFERENCE_KIND).toUpperCase(Locale.ROOT)),
                    facts.value(FactName.REFERENCE_UNCERTAINTY),
                    facts.value(FactName.REFERENCE_PPM),
                    Objects.requireNonNullElse(facts.value(FactName.COVERAGE_FACTOR), 2.0),
                    tape.isEmpty() ? null : TapeClass.named(tape),
                    null,
                    new Certificate(
                            facts.text(FactName.CERTIFICATE_NUMBER),
                            facts.text(FactName.CERTIFICATE_ISSUED_BY),
                            facts.text(FactName.CERTIFICATE_DATE),
                            facts.text(FactName.CERTIFICATE_TRACEABLE_TO)));
        }

        private @Nullable Limit limit() {
            double relative = Objects.requireNonNullElse(facts.value(FactName.LIMIT_PERCENT), 0.0);
            double absolute = Objects.requireNonNullElse(facts.value(FactName.LIMIT_LENGTH), 0.0);
            return relative > 0 || absolute > 0 ? Limit.of(ratio(relative), absolute) : null;
        }

        private @Nullable StatedAccuracy stated() {
            Double percent = facts.value(FactName.STATED_PERCENT);
            Double from = facts.value(FactName.STATED_FROM);
            return percent == null || from == null ? null : new StatedAccuracy(ratio(percent), from);
        }

        /** In decimals, so that 0.15 % is the ratio 0.0015 and not its neighbour. */
        private static double ratio(double percent) {
            return BigDecimal.valueOf(percent).movePointLeft(2).doubleValue();
        }

        private Setup setup() {
            return new Setup(
                    facts.text(FactName.SETUP_NAME),
                    facts.text(FactName.FIRMWARE),
                    facts.value(FactName.WORKING_DISTANCE),
                    facts.value(FactName.MISALIGNMENT),
                    facts.value(FactName.ABBE_OFFSET),
                    facts.value(FactName.ABBE_ANGLE),
                    facts.value(FactName.TEMPERATURE),
                    facts.value(FactName.TEMPERATURE_HALF_WIDTH),
                    facts.value(FactName.EXPANSION),
                    null,
                    facts.text(FactName.PARAMETERS),
                    facts.text(FactName.WINDOW));
        }

        private DecisionRule rule() {
            return DecisionRule.valueOf(facts.choice(FactName.DECISION_RULE).toUpperCase(Locale.ROOT));
        }

        private @Nullable Series series(SheetSeries typed) {
            try {
                double speed = typed.speed().speedMmPerS();
                String name = name(typed);
                Stops stops = new Stops(typed);
                List<Standstill> rows = new ArrayList<>();
                List<SheetReading> moves = typed.moves();
                rows.add(start(typed, stops, name));
                for (SheetReading reading : moves) {
                    rows.add(row(reading, stops.of(rows.size(), reading), name, rows.size()));
                    String pass = name + "/" + (rows.size() - 1);
                    readingOfPass.put(pass, reading.seq());
                    if (!reading.spoiled().isEmpty()) {
                        exclusions.add(new Exclusion(pass, reading.spoiled(), SourcePosition.ofFile(name)));
                    }
                }
                if (rows.size() < 2) {
                    return null;
                }
                names.put(typed.seq(), name);
                return new Series(
                        name, material(typed), facts.text(FactName.SETUP_NAME), speed, acceleration(typed), rows);
            } catch (NotUnderstoodException e) {
                // what was recorded had been understood; a text that no longer is stays on record and out of the trial
                return null;
            }
        }

        private Standstill start(SheetSeries typed, Stops stops, String name) throws NotUnderstoodException {
            if (!facts.zeroed()) {
                for (SheetReading reading : typed.readings()) {
                    if (reading.start()) {
                        return row(reading, stops.of(0, reading), name, 0);
                    }
                }
            }
            Length from = stops.of(0, null);
            return new Standstill(
                    from.mm(), 0, from.decimals(), null, null, null, null, "", SourcePosition.ofFile(name));
        }

        private Standstill row(SheetReading reading, Length reference, String series, int row)
                throws NotUnderstoodException {
            Length shown = reading.reading().length();
            flicker = Math.max(flicker, shown.widthMm());
            finestStep = Math.min(finestStep, shown.stepMm());
            LocalDateTime at = LocalDateTime.ofInstant(reading.at(), zone).truncatedTo(ChronoUnit.SECONDS);
            // readings sent together have one time between them: only the first can claim it
            boolean later = lastTime == null || at.isAfter(lastTime);
            lastTime = at;
            return new Standstill(
                    reference.mm(),
                    shown.mm(),
                    Math.max(reference.decimals(), shown.decimals()),
                    null,
                    later ? at : null,
                    null,
                    null,
                    "",
                    new SourcePosition(series, row, 0, ""));
        }

        private String material(SheetSeries typed) {
            if (!typed.material().isBlank()) {
                return typed.material().strip();
            }
            String common = facts.text(FactName.MATERIAL);
            return common.isEmpty() ? unnamed : common;
        }

        private @Nullable Double acceleration(SheetSeries typed) {
            if (typed.acceleration().isEmpty()) {
                return facts.value(FactName.ACCELERATION);
            }
            try {
                return Facts.check(FactName.ACCELERATION, typed.acceleration());
            } catch (NotUnderstoodException e) {
                return null;
            }
        }

        /** A short name with the surface's first word and the speed, such as "felt-50", made unique by a number. */
        private String name(SheetSeries typed) throws NotUnderstoodException {
            String word = material(typed).toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", "-");
            word = word.replaceAll("^-|-$", "");
            String speed = BigDecimal.valueOf(typed.speed().speedMmPerS())
                    .stripTrailingZeros()
                    .toPlainString();
            String base = (word.isEmpty() ? "series" : word) + "-" + speed;
            String name = base;
            for (int i = 2; !taken.add(name); i++) {
                name = base + "-" + i;
            }
            return name;
        }
    }

    /** Where the reference stands: at the typed position, else at the target. */
    private record Stops(Length from, Length to, boolean onward) {
        Stops(SheetSeries series) throws NotUnderstoodException {
            this(series.from().length(), series.to().length(), series.onward());
        }

        Length of(int index, @Nullable SheetReading reading) throws NotUnderstoodException {
            if (reading != null && !reading.reference().isEmpty()) {
                return reading.reference().length();
            }
            if (!onward) {
                return index % 2 == 0 ? from : to;
            }
            BigDecimal stroke = to.exactMm().subtract(from.exactMm());
            return new Length(from.exactMm().add(stroke.multiply(BigDecimal.valueOf(index))), 0, to.stepMm());
        }
    }

    /**
     * Returns where the reference should stand at a standstill of a series, in mm.
     *
     * @param series series
     * @param index 0 for the start, then 1, 2, ...
     * @throws NotUnderstoodException if the typed ends of the move are no lengths
     */
    public static double targetMm(SheetSeries series, int index) throws NotUnderstoodException {
        return new Stops(series).of(index, null).mm();
    }
}
