package slowproof.trial.recording;

import java.util.List;
import org.jspecify.annotations.Nullable;
import slowproof.trial.recording.Rests.Rest;

/**
 * The indication as witness of rest: at a standstill sensor and reference rest both. Where a reference is noisy, coarse
 * or seldom written, it seems to rest while a slow pass goes on or has begun; the sensor tells.
 */
final class RestWitness {
    /** Share of the sensor's travel from which on the reference is said to have travelled too: between none and all. */
    private static final double AS_FAR = 0.5;

    /** So many standard deviations are no accident. */
    private static final double CLEARLY = 4;

    private final Recording recording;
    private final Column indication;
    private final Motion motion;
    private final double steadyMm;
    private @Nullable Motion own;
    private boolean told;

    private RestWitness(Recording recording, Motion motion) {
        this.recording = recording;
        this.indication = recording.indicationMm();
        this.motion = motion;
        this.steadyMm = Motion.steadyMm(recording.indicationStepMm());
    }

    /** Returns the witness; null when the recording lacks one of both, or the trial says what counts as rest. */
    static @Nullable RestWitness of(Recording recording, Motion motion, PassSettings settings) {
        boolean both = recording.hasIndication() && recording.hasReference();
        return both && settings.stillBelowMmPerS() == null ? new RestWitness(recording, motion) : null;
    }

    /**
     * Returns the stretches of a rest of the reference in which the sensor rests too; the rest itself when it never does, as
     * where it drifts or trembles; none when both moved on.
     */
    List<Rest> parts(Rest rest) {
        double shown = indication.blocks().span(rest.first(), rest.last());
        if (shown <= steadyMm) {
            return List.of(rest);
        }
        boolean moving = catchesUp(rest) || movesAlong(rest);
        double possible = motion.positionMm().blocks().span(rest.first(), rest.last()) + 2 * motion.stepMm();
        boolean finer = motion.stillWidthMm() <= steadyMm;
        if (!moving && (finer || shown > possible)) {
            // such a reference tells rest better than a sensor that drifts
            return List.of(rest);
        }
        List<Rest> parts = Rests.find(
                motion.timeS(), indication, rest.first(), rest.last() + 1, own().stillWidthMm(), motion.dwellS());
        if (parts.isEmpty() && !(moving && travels(rest))) {
            return List.of(rest);
        }
        told = true;
        return parts.stream().map(own()::trimmed).toList();
    }

    /** Returns true when the sensor told at some rest what the reference could not. */
    boolean told() {
        return told;
    }

    /** Returns the speed in mm/s below which both rest over a dwell. */
    double stillBelowMmPerS() {
        double reference = motion.stillBelowMmPerS();
        return told ? Math.min(reference, own().stillBelowMmPerS()) : reference;
    }

    /** Returns true when the sensor goes one way over a rest of the reference; one that trembles comes back. */
    private boolean travels(Rest rest) {
        double span = indication.blocks().span(rest.first(), rest.last());
        return Math.abs(risen(indication, rest)) > AS_FAR * span;
    }

    /** Returns true when the reference moves as the sensor does, only hidden by its noise. */
    private boolean movesAlong(Rest rest) {
        double shown = risen(indication, rest);
        double moved = risen(motion.positionMm(), rest) * Math.signum(shown);
        double scatter = motion.noiseMm() * Math.sqrt(2.0 / (1 + (rest.last() - rest.first()) / 3));
        return travels(rest) && moved > AS_FAR * Math.abs(shown) && moved > CLEARLY * scatter;
    }

    /** Returns the mean of the last third of a rest less that of the first. */
    private static double risen(Column track, Rest rest) {
        int third = (rest.last() - rest.first()) / 3;
        double sum = 0;
        for (int i = 0; i <= third; i++) {
            sum += track.get(rest.last() - i) - track.get(rest.first() + i);
        }
        return sum / (third + 1);
    }

    /**
     * Returns true when the reference stood still to the last digit and makes up with the next row for what the sensor
     * travelled meanwhile: it was not written, it did not rest.
     */
    private boolean catchesUp(Rest rest) {
        int next = rest.last() + 1;
        if (next >= indication.size() || rest.last() - rest.first() < 2) {
            return false;
        }
        Column reference = motion.positionMm();
        double caughtUp = Math.abs(reference.get(next) - reference.get(rest.last()));
        return reference.get(rest.last()) == reference.get(rest.last() - 2)
                && caughtUp > motion.movingWidthMm()
                && caughtUp > AS_FAR * travel(rest.first(), next)
                && travel(rest.first(), rest.last()) > AS_FAR * caughtUp;
    }

    /** Returns true when the sensor halts too within a halt of the reference, and moves before and after it; a reference that is seldom written seems to halt while the sensor goes on. */
    boolean halts(Rest rest, int from, int to, double speedMmPerS) {
        double duration = motion.timeS().get(rest.last()) - motion.timeS().get(rest.first());
        return travel(rest.first(), rest.last()) < AS_FAR * speedMmPerS * duration
                && travel(from, rest.first()) > steadyMm
                && travel(rest.last(), to) > steadyMm;
    }

    private double travel(int from, int to) {
        return Math.abs(indication.get(to) - indication.get(from));
    }

    /** Returns motion as the sensor shows it. */
    synchronized Motion own() {
        Motion known = own;
        if (known == null) {
            known = Motion.ofTrack(recording, indication, motion.dwellS());
            own = known;
        }
        return known;
    }
}
