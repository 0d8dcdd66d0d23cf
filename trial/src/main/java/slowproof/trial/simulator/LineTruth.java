package slowproof.trial.simulator;

import org.apache.commons.rng.UniformRandomProvider;

/**
 * The true error of pieces cut on a line: how much the sensor over-reads while the web travels one true piece.
 * Scatter is taken at the factor that holds at the highest speed of each move.
 *
 * @param pieceMm net travel of the cycle, mm
 * @param pathMm travel of the cycle, reversals counted as positive, mm
 * @param starts number of starts from rest, reversals included
 * @param expectedErrorMm mean error, start losses included, mm; positive = over-reads
 * @param startPartMm the start losses in it, mm
 * @param startVarianceMm2 variance from start to start, summed over the starts of a piece, mm2
 * @param travelVarianceMm2 variance of the travel scatter over a piece, mm2
 */
public record LineTruth(
        double pieceMm,
        double pathMm,
        int starts,
        double expectedErrorMm,
        double startPartMm,
        double startVarianceMm2,
        double travelVarianceMm2) {
    /**
     * Integrates a motion on the true curve.
     *
     * @param motion the motion of one piece
     * @param material the true surface; its scatter between series is not part of a piece's spread and left out
     */
    public static LineTruth of(Motion motion, TrueMaterial material) {
        double path = 0;
        double curve = 0;
        double startVariance = 0;
        double travelVariance = 0;
        for (Motion.Move move : motion.moves()) {
            double length = Math.abs(move.travelMm());
            double direction = Math.signum(move.travelMm());
            double error = motion.integrate(v -> material.curve().at(v) * v, move.startS(), move.endS());
            double returnExtra = direction < 0 ? material.returnExtraRatio() * length : 0;
            // over-reading a travel backwards shortens the piece
            curve += direction * (error + returnExtra);
            path += length;
            double factor = material.scatterFactor().at(motion.peakMmPerS(move));
            startVariance += square(factor * material.startScatterMm());
            travelVariance += square(factor * material.travelScatterMmPerSqrtMm()) * length;
        }
        double startPart = material.startLossMm()
                * motion.moves().stream()
                        .mapToDouble(move -> Math.signum(move.travelMm()))
                        .sum();
        return new LineTruth(
                motion.positionMm(motion.durationS()),
                path,
                motion.moves().size(),
                curve + startPart,
                startPart,
                startVariance,
                travelVariance);
    }

    /** Returns the standard deviation of the error from piece to piece, mm. */
    public double spreadMm() {
        return Math.sqrt(startVarianceMm2 + travelVarianceMm2);
    }

    /**
     * Draws the true errors of single pieces: the expected error, and normal scatter added per start and per metre.
     *
     * @param pieces number of pieces, at least 0
     * @param streams seed and trial number
     * @return errors in mm, positive = over-reads
     */
    public double[] pieces(int pieces, RandomStreams streams) {
        UniformRandomProvider generator = streams.generators(1)[0];
        RandomStreams.Normal normal = RandomStreams.normal(generator);
        double[] errors = new double[Check.atLeast(pieces, 0, "pieces")];
        double start = Math.sqrt(startVarianceMm2);
        double travel = Math.sqrt(travelVarianceMm2);
        for (int i = 0; i < pieces; i++) {
            errors[i] = expectedErrorMm + start * normal.next() + travel * normal.next();
        }
        return errors;
    }

    private static double square(double value) {
        return value * value;
    }
}
