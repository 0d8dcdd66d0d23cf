package slowproof.trial.recording;

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

    /** Returns the motion of a recording by its reference, or by its indication when it has no reference. */
    static Motion of(Recording recording, PassSettings settings) {
        Column track = recording.trackMm();
        Column time = recording.timeS();
        double dwell = Math.max(settings.dwellS(), 3 * recording.intervalS());
        double step = track.smallestStep();
        double noise = RestNoise.standardDeviationMm(recording, track, dwell, step);
        double floor = Math.max(NOISE_SPREAD * noise, STEP_SPREAD * step);
        Double still = settings.stillBelowMmPerS();
        if (still == null) {
            return new Motion(time, track, noise, step, floor, 2 * floor, dwell);
        }
        Double moving = settings.movingAboveMmPerS();
        double width = still * dwell;
        return new Motion(time, track, noise, step, width, moving == null ? 2 * width : moving * dwell, dwell);
    }
}
