package slowproof.app.web;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.typed.LengthUnit;
import slowproof.archive.typed.NotUnderstoodException;
import slowproof.archive.typed.NotUnderstoodException.Why;
import slowproof.archive.typed.SpeedUnit;
import slowproof.archive.typed.Typed;
import slowproof.trial.Limit;
import slowproof.trial.findings.LineEvidence;
import slowproof.trial.line.Line;
import slowproof.trial.line.LineStep;
import slowproof.trial.line.PieceSpec;
import slowproof.wording.Wording;

/**
 * A line as described on its page: fast, creep before the cut, stop.
 *
 * @param lengthMm length of a piece, mm
 * @param toleranceMm tolerance, plus or minus mm, or null when none was typed
 * @param fastMmPerS fast speed, mm/s
 * @param accelerationMmPerS2 acceleration of all ramps, mm/s²
 * @param creepMmPerS creep speed, mm/s
 * @param creepMm how far it creeps, mm
 */
record LineForm(
        double lengthMm,
        @Nullable Double toleranceMm,
        double fastMmPerS,
        double accelerationMmPerS2,
        double creepMmPerS,
        double creepMm) {
    /** Fields of the form, in its order. */
    static final List<String> FIELDS = List.of("length", "tolerance", "fast", "acceleration", "creep", "creeps");

    private static final double USUAL_LENGTH = 1000;
    private static final double USUAL_ACCELERATION = 500;
    private static final int DIGITS = 3;

    /** Returns what stands in the fields before anything is typed: what the trial itself suggests. */
    static Map<String, String> usual(LineEvidence evidence, @Nullable Limit limit, Wording wording) {
        Double floor = evidence.floorMmPerS();
        double fast = evidence.fastestMmPerS();
        double slowest = evidence.slowestMmPerS();
        double creep = floor != null && floor >= slowest && floor < fast ? Math.ceil(floor) : slowest;
        Double acceleration = evidence.slowestAccelerationMmPerS2();
        Map<String, String> fields = new HashMap<>();
        fields.put("length", plain(USUAL_LENGTH, wording));
        fields.put("tolerance", limit == null ? "" : plain(limit.permissibleErrorMm(USUAL_LENGTH), wording));
        fields.put("fast", plain(fast, wording));
        fields.put("acceleration", plain(acceleration == null ? USUAL_ACCELERATION : acceleration, wording));
        fields.put("creep", plain(creep, wording));
        fields.put("creeps", plain(USUAL_LENGTH / 10, wording));
        return fields;
    }

    private static String plain(double value, Wording wording) {
        return wording.numbers().plain(value, Math.max(DIGITS, (int) Math.ceil(Math.log10(value + 1))));
    }

    /**
     * Returns what was typed, or null after noting what is wrong with it.
     *
     * @param texts what stands in the fields
     * @param sheet trial whose decimal mark counts
     * @param wording language of the problems
     * @param problems where to note them
     */
    static @Nullable LineForm read(Map<String, String> texts, Sheet sheet, Wording wording, List<Problem> problems) {
        List<Problem> found = new ArrayList<>();
        double[] values = new double[FIELDS.size()];
        boolean toleranced = false;
        for (int i = 0; i < values.length; i++) {
            String field = FIELDS.get(i);
            Typed typed = new Typed(
                    Objects.requireNonNullElse(texts.get(field), ""),
                    sheet.facts().habits().mark(),
                    LengthUnit.MM,
                    SpeedUnit.MM_PER_S);
            if (field.equals("tolerance") && typed.isEmpty()) {
                continue;
            }
            toleranced |= field.equals("tolerance");
            try {
                values[i] = value(field, typed);
            } catch (NotUnderstoodException e) {
                found.add(Problem.of(field, e, wording));
            }
        }
        problems.addAll(found);
        return found.isEmpty()
                ? new LineForm(
                        values[0],
                        toleranced ? Double.valueOf(values[1]) : null,
                        values[2],
                        values[3],
                        values[4],
                        values[5])
                : null;
    }

    private static double value(String field, Typed typed) throws NotUnderstoodException {
        double value = switch (field) {
            case "fast", "creep" -> typed.speedMmPerS();
            case "acceleration" -> typed.number("mm/s\u00b2").doubleValue();
            default -> typed.length().mm();
        };
        if (!(value > 0)) {
            throw new NotUnderstoodException(Why.NOT_POSITIVE, typed.text().strip());
        }
        return value;
    }

    /** Returns the same line with another creep speed. */
    LineForm creepingAt(double speedMmPerS) {
        return new LineForm(lengthMm, toleranceMm, fastMmPerS, accelerationMmPerS2, speedMmPerS, creepMm);
    }

    /** Returns the line, named after its material. */
    Line line(String material) {
        List<LineStep> steps = List.of(
                LineStep.RampTo.of(fastMmPerS, accelerationMmPerS2),
                new LineStep.HoldRest(),
                LineStep.RampTo.of(creepMmPerS, accelerationMmPerS2),
                new LineStep.HoldMm(creepMm),
                LineStep.RampTo.of(0, accelerationMmPerS2));
        Double tolerance = toleranceMm;
        PieceSpec piece =
                tolerance == null ? new PieceSpec(lengthMm, null, null, 1) : PieceSpec.of(lengthMm, tolerance);
        return Line.of(material, piece, steps);
    }
}
