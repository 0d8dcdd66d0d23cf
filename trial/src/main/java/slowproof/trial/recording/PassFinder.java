package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import slowproof.trial.note.Note;
import slowproof.trial.note.NoteCode;
import slowproof.trial.note.Quantity;
import slowproof.trial.note.Unit;
import slowproof.trial.recording.Rests.Rest;

/**
 * Finds the passes of a recording, standstill to standstill.
 *
 * <p>A standstill is a stretch of at least the dwell time within which the reference stays inside a narrow
 * width; width over dwell time is the lower speed threshold. A move counts once it is twice that width, the upper
 * threshold. Where a move turns round without a standstill and both ways are long, it is cut at the turning
 * point and both passes are flagged; short ways back are overshoot or stay in the pass.
 *
 * <p>No pass crosses a place where the recording is cut.
 */
public final class PassFinder {
    /** A leg shorter than this share of the longest one in a move is no pass of its own. */
    private static final double OWN_LEG = 0.2;

    /** Way in the wrong direction, as a share of the path, above which the direction is unclear. */
    private static final double WRONG_WAY = 0.05;

    /** Overshoot above this share of the travel is flagged; a servo's last settling stays below. */
    private static final double OVERSHOOT = 0.0002;

    /** A plateau holds at least this share of the path; near the peak of a triangular move it is 14 %. */
    private static final double PLATEAU = 0.2;

    /** Speed of rest, as a share of the slowest pass, above which both are hardly told apart. */
    private static final double UNCLEAR_REST = 0.2;

    /** Above this share of times without travel a reference is written too seldom for a speed. */
    static final double SELDOM = 0.2;

    /** A shorter halt is the turning point of an ordinary ramp or a stagger of the log. */
    private static final double SHORTEST_HALT_S = 0.1;

    private final Recording recording;
    private final Motion motion;
    private final @Nullable RestWitness witness;
    private final DwellReader reader;
    private final double indicationStepMm;
    private final List<FoundPass> passes = new ArrayList<>();
    private final List<Dwell> dwells = new ArrayList<>();
    private final List<Note> notes = new ArrayList<>();

    private PassFinder(Recording recording, PassSettings settings) {
        this.recording = recording;
        this.motion = Motion.of(recording, settings);
        this.witness = RestWitness.of(recording, motion, settings);
        Column indication = recording.hasIndication() ? recording.indicationMm() : null;
        this.reader = new DwellReader(motion.timeS(), motion.positionMm(), indication, settings.settleS());
        this.indicationStepMm = indication == null ? 0 : recording.indicationStepMm();
    }

    /**
     * Finds the passes of a recording with the usual settings.
     *
     * @param recording a recording; without a reference its own indication tells when it moves
     */
    public static PassSearch find(Recording recording) {
        return find(recording, PassSettings.DEFAULT);
    }

    /**
     * Finds the passes of a recording.
     *
     * @param recording a recording; without a reference its own indication tells when it moves
     * @param settings what counts as a standstill
     */
    public static PassSearch find(Recording recording, PassSettings settings) {
        PassFinder finder = new PassFinder(recording, settings);
        recording.segments().forEach(finder::searchSegment);
        if (finder.dwells.isEmpty()) {
            finder.notes.add(Note.of(
                    NoteCode.LOG_NO_STANDSTILL,
                    recording.source(),
                    seconds(finder.motion.dwellS()),
                    Quantity.mmPerS(finder.motion.stillBelowMmPerS())));
        }
        Motion motion = finder.motion;
        finder.remarkUnclearRest(settings);
        return new PassSearch(
                finder.passes,
                finder.dwells,
                motion.stillBelowMmPerS(),
                motion.movingWidthMm() / motion.dwellS(),
                motion.dwellS(),
                motion.noiseMm(),
                StandstillDrift.of(finder.dwells, finder.indicationStepMm),
                finder.notes);
    }

    /** Tells where the noise that was taken for rest lets through speeds like those of the passes, as when there is no rest of a dwell's length. */
    private void remarkUnclearRest(PassSettings settings) {
        if (witness != null && witness.told()) {
            notes.add(Note.of(
                    NoteCode.LOG_REST_BY_SENSOR,
                    recording.source(),
                    Quantity.mmPerS(motion.stillBelowMmPerS()),
                    Quantity.mmPerS(witness.stillBelowMmPerS())));
        }
        double threshold = witness == null ? motion.stillBelowMmPerS() : witness.stillBelowMmPerS();
        double slowest =
                passes.stream().mapToDouble(FoundPass::plateauSpeedMmPerS).min().orElse(Double.POSITIVE_INFINITY);
        if (settings.stillBelowMmPerS() == null && threshold > UNCLEAR_REST * slowest) {
            notes.add(Note.of(
                    NoteCode.LOG_REST_UNCLEAR,
                    recording.source(),
                    Quantity.mmPerS(threshold),
                    Quantity.mmPerS(slowest),
                    seconds(motion.dwellS())));
        }
    }

    private void searchSegment(Segment segment) {
        List<Rest> rests = rests(segment);
        if (rests.isEmpty()) {
            return;
        }
        remarkCutMoves(segment, rests);
        boolean large = SideBySide.worthwhile(segment.size());
        Stream<Rest> stills = large ? rests.parallelStream() : rests.stream();
        List<Dwell> found =
                stills.map(rest -> reader.read(rest.first(), rest.last(), true)).toList();
        dwells.addAll(found);
        IntStream moves = IntStream.range(0, found.size() - 1);
        List<Move> made = (large ? moves.parallel() : moves)
                .mapToObj(k -> move(found.get(k), found.get(k + 1)))
                .toList();
        boolean joined = false;
        for (Move move : made) {
            for (int k = 0; k < move.passes().size(); k++) {
                FoundPass pass = move.passes().get(k);
                passes.add(joined && !move.apart().contains(k) ? pass.joinedToTheLast() : pass);
                joined = true;
            }
            notes.addAll(move.notes());
            joined = move.ends();
        }
    }

    /** Returns the standstills of a segment, cut back to rows that lie at the level of rest, small moves between them left out. */
    private List<Rest> rests(Segment segment) {
        List<Rest> found = Rests.find(
                motion.timeS(),
                motion.positionMm(),
                segment.from(),
                segment.to(),
                motion.stillWidthMm(),
                motion.dwellS());
        List<Rest> rests = new ArrayList<>();
        for (Rest rest : withSilences(found, segment)) {
            if (rest.last() - rest.first() <= 1) {
                add(rests, rest);
            } else {
                for (Rest part : witness == null ? List.of(rest) : witness.parts(rest)) {
                    add(rests, motion.trimmed(part));
                }
            }
        }
        return rests;
    }

    private void add(List<Rest> rests, Rest rest) {
        Rest previous = rests.isEmpty() ? null : rests.get(rests.size() - 1);
        if (previous != null && !moves(previous, rest)) {
            rests.set(rests.size() - 1, new Rest(previous.first(), rest.last()));
        } else {
            rests.add(rest);
        }
    }

    /** Adds the silences of a logger that writes only on change: the recording is not cut there, since nothing moved. */
    private List<Rest> withSilences(List<Rest> found, Segment segment) {
        List<Rest> all = new ArrayList<>(found);
        for (Break place : recording.breaks()) {
            boolean inside = place.row() > segment.from() && place.row() < segment.to();
            if (inside && !place.splits() && place.toS() - place.fromS() >= motion.dwellS()) {
                Rest silence = new Rest(place.row() - 1, place.row());
                if (found.stream().noneMatch(rest -> rest.first() < silence.last() && silence.first() < rest.last())) {
                    all.add(silence);
                }
            }
        }
        all.sort(Comparator.comparingInt(Rest::first));
        return all;
    }

    private boolean moves(Rest from, Rest to) {
        RowBlocks blocks = motion.positionMm().blocks();
        double origin = motion.positionMm().get(from.last());
        return blocks.high(from.last(), to.first()) - origin > motion.movingWidthMm()
                || origin - blocks.low(from.last(), to.first()) > motion.movingWidthMm();
    }

    private void remarkCutMoves(Segment segment, List<Rest> rests) {
        Column time = motion.timeS();
        Column position = motion.positionMm();
        int first = rests.get(0).first();
        int last = rests.get(rests.size() - 1).last();
        if (Math.abs(position.get(segment.from()) - position.get(first)) > motion.movingWidthMm()) {
            notes.add(Note.of(
                    NoteCode.LOG_STARTS_IN_MOTION,
                    recording.source(),
                    Quantity.moment(time.get(segment.from())),
                    Quantity.moment(time.get(first))));
        }
        if (Math.abs(position.get(segment.to() - 1) - position.get(last)) > motion.movingWidthMm()) {
            notes.add(Note.of(
                    NoteCode.LOG_ENDS_IN_MOTION,
                    recording.source(),
                    Quantity.moment(time.get(last)),
                    Quantity.moment(time.get(segment.to() - 1))));
        }
    }

    /**
     * What a move between two standstills came to.
     *
     * @param passes its passes, one unless it turns round on the way
     * @param apart numbers, from 0, of passes before which a move without travel lies
     * @param notes remarks
     * @param ends true when the last pass ends in the second standstill
     */
    private record Move(List<FoundPass> passes, List<Integer> apart, List<Note> notes, boolean ends) {}

    private Move move(Dwell before, Dwell after) {
        List<Legs.Leg> legs =
                Legs.find(motion.positionMm(), before.lastRow(), after.firstRow(), motion.movingWidthMm());
        double longest = 0;
        for (Legs.Leg leg : legs) {
            longest = Math.max(longest, Math.abs(leg.travelMm()));
        }
        Move move = new Move(new ArrayList<>(), new ArrayList<>(), new ArrayList<>(), true);
        Dwell from = before;
        for (int k = 0; k + 1 < legs.size(); k++) {
            if (ownPass(legs.get(k), longest) && ownPass(legs.get(k + 1), longest)) {
                Dwell turn = turningPoint(legs.get(k).to());
                addPass(from, turn, move);
                from = turn;
            }
        }
        boolean ends = addPass(from, after, move);
        return new Move(move.passes(), move.apart(), move.notes(), ends);
    }

    private static boolean ownPass(Legs.Leg leg, double longest) {
        return Math.abs(leg.travelMm()) >= OWN_LEG * longest;
    }

    /** Reads both tracks where the reference turns round: speed is zero there, though only for an instant. */
    private Dwell turningPoint(int row) {
        Column position = motion.positionMm();
        int first = row;
        int last = row;
        while (Math.abs(position.get(first - 1) - position.get(row)) <= motion.bandMm()) {
            first--;
        }
        while (Math.abs(position.get(last + 1) - position.get(row)) <= motion.bandMm()) {
            last++;
        }
        return reader.read(first, last, false);
    }

    private boolean addPass(Dwell before, Dwell after, Move move) {
        Column time = motion.timeS();
        int from = before.lastRow();
        int to = after.firstRow();
        double travel = after.referenceMm() - before.referenceMm();
        if (!(Math.abs(travel) > motion.movingWidthMm())) {
            move.apart().add(move.passes().size());
            move.notes()
                    .add(Note.of(
                            NoteCode.LOG_MOVE_WITHOUT_TRAVEL,
                            recording.source(),
                            Quantity.moment(before.endS()),
                            Quantity.moment(after.startS())));
            return false;
        }
        List<Legs.Leg> legs = Legs.find(motion.positionMm(), from, to, motion.movingWidthMm());
        double path = Math.max(Legs.pathMm(legs), Math.abs(travel));
        Plateau byReference = Plateau.of(recording, motion, from, to, path);
        // where the reference is not written often enough to tell speeds, those that the sensor shows are taken
        RestWitness asked = byReference.stillShare() > SELDOM ? witness : null;
        Plateau plateau = asked == null ? byReference : Plateau.of(recording, asked.own(), from, to, path);
        double overshoot = overshoot(from, to, after.referenceMm(), Math.signum(travel));
        Set<PassFlag> flags = EnumSet.noneOf(PassFlag.class);
        flag(flags, PassFlag.OVERSHOOT, overshoot > Math.max(motion.movingWidthMm(), OVERSHOOT * Math.abs(travel)));
        flag(flags, PassFlag.SHORT_DWELL, !before.settled() || !after.settled());
        flag(flags, PassFlag.DIRECTION_UNCLEAR, (path - Math.abs(travel)) / 2 > WRONG_WAY * path);
        flag(flags, PassFlag.STOP_INSIDE_PASS, stops(from, to, plateau.speedMmPerS(), asked));
        flag(flags, PassFlag.GAP_IN_PASS, gapInside(from, to));
        flag(flags, PassFlag.ILLEGAL_TRANSITIONS, illegalInside(from, to));
        flag(flags, PassFlag.NO_PLATEAU, plateau.share() < PLATEAU);
        flag(flags, PassFlag.STANDSTILL_DRIFT, drifts(before) || drifts(after));
        move.passes()
                .add(new FoundPass(
                        before,
                        after,
                        false,
                        time.get(from),
                        time.get(to),
                        recording.hasReference() ? travel : Double.NaN,
                        after.indicationMm() - before.indicationMm(),
                        plateau.speedMmPerS(),
                        plateau.startS(),
                        plateau.endS(),
                        plateau.share(),
                        plateau.accelerationMmPerS2(),
                        plateau.decelerationMmPerS2(),
                        plateau.topSpeedMmPerS(),
                        path,
                        overshoot,
                        dropoutShare(from, to),
                        flags));
        return true;
    }

    private static void flag(Set<PassFlag> flags, PassFlag flag, boolean raised) {
        if (raised) {
            flags.add(flag);
        }
    }

    private double overshoot(int from, int to, double endMm, double sense) {
        RowBlocks blocks = motion.positionMm().blocks();
        double beyond = sense > 0 ? blocks.high(from, to) - endMm : endMm - blocks.low(from, to);
        return Math.max(beyond - motion.bandMm(), 0);
    }

    /** A halt shorter than a dwell, away from both ends; not looked for where the pass itself is hardly faster than rest. */
    private boolean stops(int from, int to, double speed, @Nullable RestWitness asked) {
        double halt = Math.max(SHORTEST_HALT_S, Math.max(4 * recording.intervalS(), 4 * motion.stillWidthMm() / speed));
        if (halt >= motion.dwellS()) {
            return false;
        }
        Column position = motion.positionMm();
        double width = Math.min(motion.stillWidthMm(), speed * halt / 4);
        for (Rest rest : Rests.find(motion.timeS(), position, from, to + 1, width, halt)) {
            double place = position.get((rest.first() + rest.last()) / 2);
            if ((asked == null || asked.halts(rest, from, to, speed))
                    && Math.abs(place - position.get(from)) > motion.movingWidthMm()
                    && Math.abs(place - position.get(to)) > motion.movingWidthMm()) {
                return true;
            }
        }
        return false;
    }

    private boolean gapInside(int from, int to) {
        return recording.breaks().stream().anyMatch(place -> place.row() > from && place.row() <= to);
    }

    private boolean illegalInside(int from, int to) {
        return recording.illegalTransitions().stream().anyMatch(seen -> seen.row() > from && seen.row() <= to);
    }

    /** More than three counts to and fro within one standstill. */
    private boolean drifts(Dwell dwell) {
        return dwell.settled() && dwell.driftSpanMm() > 3.5 * indicationStepMm;
    }

    private double dropoutShare(int from, int to) {
        if (!recording.hasDropout()) {
            return Double.NaN;
        }
        Column dropout = recording.dropout();
        Column time = motion.timeS();
        Set<Integer> gaps = DropoutPlaces.unknown(recording, from, to);
        RowBlocks blocks = dropout.blocks();
        double lost = 0;
        double known = 0;
        for (int i = from + 1; i <= to; ) {
            int block = i / RowBlocks.ROWS;
            int end = Math.min(blocks.to(block), to + 1);
            if (gaps.isEmpty() && blocks.constant(block)) {
                known += time.get(end - 1) - time.get(i - 1);
                lost += blocks.low(block) * (time.get(end - 1) - time.get(i - 1));
                i = end;
            }
            for (; i < end; i++) {
                double share = dropout.get(i);
                if (!Double.isNaN(share) && (gaps.isEmpty() || !gaps.contains(i))) {
                    known += time.get(i) - time.get(i - 1);
                    lost += share * (time.get(i) - time.get(i - 1));
                }
            }
        }
        return known > 0 ? lost / known : Double.NaN;
    }

    private static Quantity seconds(double value) {
        return new Quantity(value, Unit.S);
    }
}
