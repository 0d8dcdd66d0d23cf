package slowproof.trial.simulator;

import java.util.Objects;

/**
 * One series of passes at one material, programmed speed and acceleration.
 *
 * @param name name of the series, unique in the trial
 * @param material the true surface
 * @param strokeMm length of a stroke, mm, positive
 * @param drive programmed speed and ramps
 * @param cycles number of cycles, at least 1
 * @param pattern how strokes follow each other
 * @param movesPerStroke number of equal moves, with a standstill and a reading after each, that make up a stroke;
 *     1 for plain passes, more for stop-and-go
 * @param tracks number of strips of material that take turns, cycle by cycle; 1 repeats one strip. Of no effect
 *     when strokes go one way, where the material is always new
 */
public record SeriesPlan(
        String name,
        TrueMaterial material,
        double strokeMm,
        Drive drive,
        int cycles,
        PassPattern pattern,
        int movesPerStroke,
        int tracks) {
    /** Checks the parts. */
    public SeriesPlan {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(material, "material");
        Check.positive(strokeMm, "stroke");
        Objects.requireNonNull(drive, "drive");
        Check.atLeast(cycles, 1, "cycles");
        Objects.requireNonNull(pattern, "pattern");
        Check.atLeast(movesPerStroke, 1, "moves per stroke");
        Check.atLeast(tracks, 1, "tracks");
    }

    /** Returns a series of plain forward and return passes. */
    public static SeriesPlan alternating(String name, TrueMaterial material, double strokeMm, Drive drive, int cycles) {
        return new SeriesPlan(name, material, strokeMm, drive, cycles, PassPattern.ALTERNATING, 1, 1);
    }

    /** Returns a series of plain passes that all go forward. */
    public static SeriesPlan oneWay(String name, TrueMaterial material, double strokeMm, Drive drive, int passes) {
        return new SeriesPlan(name, material, strokeMm, drive, passes, PassPattern.ONE_WAY, 1, 1);
    }

    /** Returns a copy that stops this many times on each stroke, its end included. */
    public SeriesPlan withMovesPerStroke(int moves) {
        return new SeriesPlan(name, material, strokeMm, drive, cycles, pattern, moves, tracks);
    }

    /** Returns a copy in which this many strips of material take turns. */
    public SeriesPlan withTracks(int strips) {
        return new SeriesPlan(name, material, strokeMm, drive, cycles, pattern, movesPerStroke, strips);
    }

    /** Returns the number of passes, standstill to standstill. */
    public int passes() {
        return cycles * (pattern == PassPattern.ALTERNATING ? 2 : 1) * movesPerStroke;
    }

    /** Returns the length of one pass, mm. */
    public double passMm() {
        return strokeMm / movesPerStroke;
    }

    /** Returns the duration of one move, s. */
    public double durationS() {
        return Motion.builder().move(passMm(), drive).build().durationS();
    }

    /** Returns the strip over which a pass goes, from 0. */
    int track(int pass) {
        int strokesPerCycle = pattern == PassPattern.ALTERNATING ? 2 : 1;
        return pass / (movesPerStroke * strokesPerCycle) % tracks;
    }

    /** Returns the part of the stroke that a pass covers, from 0 at the start of the carriage's way. */
    int part(int pass) {
        int along = pass % movesPerStroke;
        return direction(pass) > 0 ? along : movesPerStroke - 1 - along;
    }

    /** Returns the direction of a pass counted from 0: 1 forward, -1 return. */
    int direction(int pass) {
        return pattern == PassPattern.ALTERNATING && pass / movesPerStroke % 2 == 1 ? -1 : 1;
    }
}
