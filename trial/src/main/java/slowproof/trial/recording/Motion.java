package slowproof.trial.recording;

import slowproof.trial.recording.Rests.Rest;

/**
 * The track by which motion is judged, with what its noise allows: at rest a position stays within
 * {@code stillWidthMm} for the dwell time, and it has moved once it is {@code movingWidthMm} away.
 *
 * @param timeS times in s
 * @param positionMm positions in mm
 * @param noiseMm standard deviation of a position at rest, in mm
 * @param stepMm smallest step between rows, in mm
 * @param stillWidthMm largest spread of positions at rest within the dwell time, in mm
 * @param movingWidthMm travel from which on it counts as a move, in mm
 * @param dwellS shortest standstill in s
 */
record Motion(
        Column timeS,
        Column positionMm,
        double noiseMm,
        double stepMm,
        double stillWidthMm,
        double movingWidthMm,
        double dwellS) {
    /** Spread of white noise over a dwell, peak to peak: 8 standard deviations hold some 15,000 samples. */
    private static final double NOISE_SPREAD = 8;

    /** Two and a half steps: a position that flickers between two neighbouring steps is at rest. */
    private static final double STEP_SPREAD = 2.5;

    /** Returns the distance from a level of rest that noise and steps explain, in mm. */
    double bandMm() {
        return Math.max(4 * noiseMm, 1.01 * stepMm);
    }

    /** Returns the speed in mm/s below which it counts as rest over a dwell. */
    double stillBelowMmPerS() {
        return stillWidthMm / dwellS;
    }

    /**
     * Returns true when a ramp is long enough to be measured: twenty rows, and twenty times as far as noise hides
     * a move. Its start is then known to about a tenth of the ramp.
     */
    boolean resolves(double speedMmPerS, double rampMmPerS2, double intervalS) {
        return speedMmPerS / rampMmPerS2 >= 20 * intervalS
                && speedMmPerS * speedMmPerS / (2 * rampMmPerS2) >= 20 * bandMm();
    }

    /** Returns a rest without the rows at its ends that do not lie at the level of rest there. */
    Rest trimmed(Rest rest) {
        double band = bandMm();
        int firstEnd = rest.first();
        while (firstEnd < rest.last() && timeS.get(firstEnd) - timeS.get(rest.first()) < dwellS) {
            firstEnd++;
        }
        int lastStart = rest.last();
        while (lastStart > rest.first() && timeS.get(rest.last()) - timeS.get(lastStart) < dwellS) {
            lastStart--;
        }
        double levelFirst = Select.median(positionMm, rest.first(), firstEnd);
        double levelLast = Select.median(positionMm, lastStart, rest.last());
        int first = rest.first();
        while (first < firstEnd && Math.abs(positionMm.get(first) - levelFirst) > band) {
            first++;
        }
        int last = rest.last();
        while (last > Math.max(lastStart, first) && Math.abs(positionMm.get(last) - levelLast) > band) {
            last--;
        }
        return new Rest(first, last);
    }

    /** Returns the motion of a recording by its reference, or by its indication when it has no reference. */
    static Motion of(Recording recording, PassSettings settings) {
        double dwell = Math.max(settings.dwellS(), 3 * recording.intervalS());
        Motion derived = ofTrack(recording, recording.trackMm(), dwell);
        Double still = settings.stillBelowMmPerS();
        if (still == null) {
            return derived;
        }
        Double moving = settings.movingAboveMmPerS();
        double width = still * dwell;
        return new Motion(
                derived.timeS(),
                derived.positionMm(),
                derived.noiseMm(),
                derived.stepMm(),
                width,
                moving == null ? 2 * width : moving * dwell,
                dwell);
    }

    /** Returns the motion of a recording by one of its tracks, with thresholds from its own noise and steps. */
    static Motion ofTrack(Recording recording, Column track, double dwellS) {
        double step = track.smallestStep();
        double noise = RestNoise.standardDeviationMm(recording, track, dwellS, step);
        double floor = Math.max(NOISE_SPREAD * noise, steadyMm(step));
        return new Motion(recording.timeS(), track, noise, step, floor, 2 * floor, dwellS);
    }

    /** Returns the spread of a position at rest that its steps alone explain, in mm. */
    static double steadyMm(double stepMm) {
        return STEP_SPREAD * stepMm;
    }
}
