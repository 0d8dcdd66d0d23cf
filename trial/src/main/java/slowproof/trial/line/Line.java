package slowproof.trial.line;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import slowproof.trial.Check;
import slowproof.trial.line.LineNotPossibleException.Why;

/**
 * A line that makes pieces.
 *
 * @param title what the user calls it
 * @param material material it runs; null for the only one of the trial
 * @param pieces what it makes, at least one; more than one is a mix, each made in a cycle of its own
 * @param cutsOnSensor whether the sensor's reading triggers the cut; else the sensor only measures
 * @param piecesPerCycle pieces that one cycle makes, at least 1
 * @param cycle the steps of the cycle, from rest to rest; empty when a log is given
 * @param log logged speed, smoothed; null when steps are given
 * @param triggerJitterS standard deviation of the moment of the cut, s, not negative
 * @param triggerLatencyS mean delay of the cut on the fly, s; null when not stated
 * @param standstillDriftMmPerMin bound of the indication gained or lost at rest, mm/min, not negative; null when not
 *     stated
 * @param unitSpread standard deviation from unit to unit as a ratio, not negative; null to speak of this unit only
 * @param unitSpreadSource where that figure comes from, empty without one
 * @param coverage share of pieces that a promise speaks of, strictly between 0 and 1
 * @param confidence confidence of a promise, strictly between 0 and 1
 */
public record Line(
        String title,
        @Nullable String material,
        List<PieceSpec> pieces,
        boolean cutsOnSensor,
        int piecesPerCycle,
        List<LineStep> cycle,
        @Nullable LineProfile log,
        double triggerJitterS,
        @Nullable Double triggerLatencyS,
        @Nullable Double standstillDriftMmPerMin,
        @Nullable Double unitSpread,
        String unitSpreadSource,
        double coverage,
        double confidence) {
    /** A log that is off a whole number of pieces by no more than this share is taken for one cycle and scaled to it. */
    public static final double LOG_SCALE = 0.02;

    /** Checks and copies the parts. */
    public Line {
        Objects.requireNonNull(title, "title");
        pieces = List.copyOf(pieces);
        cycle = List.copyOf(cycle);
        if (pieces.isEmpty()) {
            throw new IllegalArgumentException("a line makes at least one piece");
        }
        if (cycle.isEmpty() == (log == null)) {
            throw new IllegalArgumentException("either steps or a log are needed");
        }
        if (piecesPerCycle < 1) {
            throw new IllegalArgumentException("a cycle makes at least one piece, found " + piecesPerCycle);
        }
        Check.notNegative(triggerJitterS, "jitter of the trigger", "s");
        if (triggerLatencyS != null) {
            Check.finite(triggerLatencyS, "latency of the trigger", "s");
        }
        if (standstillDriftMmPerMin != null) {
            Check.notNegative(standstillDriftMmPerMin, "drift at standstill", "mm/min");
        }
        if (unitSpread != null) {
            Check.notNegative(unitSpread, "spread from unit to unit", "");
        }
        if (!(coverage > 0 && coverage < 1 && confidence > 0 && confidence < 1)) {
            throw new IllegalArgumentException(
                    "coverage and confidence lie between 0 and 1: " + coverage + ", " + confidence);
        }
    }

    /** Returns a line of described steps with everything else left at its usual value. */
    public static Line of(String title, PieceSpec piece, List<LineStep> cycle) {
        return new Line(title, null, List.of(piece), true, 1, cycle, null, 0, null, null, null, "", 0.95, 0.95);
    }

    /** Returns the same line with other steps. */
    public Line withCycle(List<LineStep> steps) {
        return new Line(
                title,
                material,
                pieces,
                cutsOnSensor,
                piecesPerCycle,
                steps,
                null,
                triggerJitterS,
                triggerLatencyS,
                standstillDriftMmPerMin,
                unitSpread,
                unitSpreadSource,
                coverage,
                confidence);
    }

    /**
     * Returns the same line with its cycle written so that the fastest hold takes what is left of the piece: what gives way when
     * ramps or creep are changed. A line without steps, or for pieces of several lengths, stays as it is.
     *
     * @throws LineNotPossibleException if the cycle cannot be driven
     */
    public Line restAtFastestHold() {
        boolean several =
                pieces.stream().mapToDouble(PieceSpec::lengthMm).distinct().count() > 1;
        return cycle.isEmpty() || several
                ? this
                : withCycle(RestPlace.atFastest(cycle, pieces.get(0).lengthMm() * piecesPerCycle));
    }

    /** Returns the same line with another jitter of the trigger. */
    public Line withTriggerJitterS(double jitterS) {
        return new Line(
                title,
                material,
                pieces,
                cutsOnSensor,
                piecesPerCycle,
                cycle,
                log,
                jitterS,
                triggerLatencyS,
                standstillDriftMmPerMin,
                unitSpread,
                unitSpreadSource,
                coverage,
                confidence);
    }

    /** Returns the same line that makes other pieces. */
    public Line withPieces(List<PieceSpec> others) {
        return new Line(
                title,
                material,
                others,
                cutsOnSensor,
                piecesPerCycle,
                cycle,
                log,
                triggerJitterS,
                triggerLatencyS,
                standstillDriftMmPerMin,
                unitSpread,
                unitSpreadSource,
                coverage,
                confidence);
    }

    /** Returns the profile of the cycle that makes a piece; a log is scaled to whole pieces where it is close to them. */
    public LineProfile profile(PieceSpec piece) {
        if (log == null) {
            return CycleMotion.profile(cycle, piece.lengthMm() * piecesPerCycle);
        }
        double pieces = log.netTravelMm() / piece.lengthMm();
        long whole = Math.round(pieces);
        if (whole >= 1 && Math.abs(pieces / whole - 1) <= LOG_SCALE / whole) {
            return log.scaled(whole / pieces);
        }
        if (pieces < 1) {
            throw new LineNotPossibleException(Why.LINE_LOG_SHORT, -1, log.netTravelMm(), piece.lengthMm());
        }
        return log;
    }

    /**
     * Returns the motions of all pieces of one cycle or log, each with the piece it makes and its weight in the mix.
     *
     * @throws LineNotPossibleException if the cycle cannot be driven
     */
    public List<WeightedPiece> motions() {
        double shares = pieces.stream().mapToDouble(PieceSpec::share).sum();
        List<WeightedPiece> all = new ArrayList<>();
        for (PieceSpec piece : pieces) {
            List<PieceMotion> motions = profile(piece).cut(piece.lengthMm());
            for (PieceMotion motion : motions) {
                all.add(new WeightedPiece(piece, motion, piece.share() / shares / motions.size()));
            }
        }
        return List.copyOf(all);
    }

    /**
     * A piece of the cycle.
     *
     * @param piece what is wanted
     * @param motion what the web does
     * @param weight share of such pieces, all weights add up to 1
     */
    public record WeightedPiece(PieceSpec piece, PieceMotion motion, double weight) {}
}
