package slowproof.trial.clock;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.hipparchus.exception.MathRuntimeException;
import org.jspecify.annotations.Nullable;
import slowproof.trial.clock.Blocks.Move;
import slowproof.trial.recording.Break;
import slowproof.trial.recording.FoundPass;
import slowproof.trial.recording.PassFinder;
import slowproof.trial.recording.PassSettings;
import slowproof.trial.recording.Recording;

/**
 * Finds offset and drift of two clocks together with the sensor's error curve, since each biases the other when
 * fitted alone:
 *
 * <p>L_ind(t) - L_ref(t) = b + sum_k eps_k D_k(t) + v(t) delta + v(t) (t - t_mid) rho + noise.
 *
 * <p>Rows are the count transitions, put together in {@link Blocks}; differences of neighbouring block means take b
 * out. Their noise: travel scatter is a random walk, so it grows with the way between blocks; rounding is in the
 * means and shared by neighbours, which makes the covariance tri-diagonal; each start adds a scatter of its own.
 * Both scatters are estimated from the residuals. The clock is shifted and all is repeated until it stays.
 *
 * <p>Standard uncertainties come from the scores of whole passes (a cluster-robust covariance), never below those of
 * the model, since what is left of the model's flaws is common to a pass; where passes are few they are widened. A hundredth of a sampling interval is added for what lies between samples.
 */
public final class ClockEstimator {
    private static final int SHIFTS = 8;

    /** Quartz clocks keep within some ten ppm; computers under load and cheap loggers within some hundred. */
    private static final double DRIFT_PRIOR = 200e-6;

    /** A prior so wide that it only holds classes of speed in which nothing was travelled. */
    private static final double CURVE_PRIOR = 0.2;

    private static final double START_PRIOR_MM = 0.5;

    /**
     * Steps of the reference, as a share of a count, beyond which they decide the fit: they lie alike in neighbouring blocks, so no
     * uncertainty that the residuals show covers them.
     */
    private static final double COARSE = 0.3;

    private static final double DRIFT_NOT_MEASURED = 10e-6;

    /** A second place may not explain nearly as much of the motion as the best. */
    private static final double RUNNER_UP = 1.5;

    private final Recording sensor;
    private final Recording reference;
    private final boolean sameClock;

    private ClockEstimator(Recording sensor, Recording reference, boolean sameClock) {
        this.sensor = sensor;
        this.reference = reference;
        this.sameClock = sameClock;
    }

    /**
     * Aligns a sensor's recording with a reference's.
     *
     * @param sensor a recording with an indication
     * @param reference a recording with a reference
     */
    public static Alignment align(Recording sensor, Recording reference) {
        return new ClockEstimator(sensor, reference, false).align();
    }

    /**
     * Finds the sensor's latency in a recording of one clock: the offset of the fit is minus the latency, the drift is
     * zero.
     *
     * @param recording a recording with indication and reference
     */
    public static Alignment latency(Recording recording) {
        return new ClockEstimator(recording, recording, true).align();
    }

    private Alignment align() {
        if (setBack(sensor) || setBack(reference)) {
            return Alignment.refused(ClockReason.CLOCK_SET_BACK);
        }
        CoarseOffset coarse =
                sameClock ? new CoarseOffset(0, reference.intervalS(), 1, 0, 1) : CoarseOffset.find(sensor, reference);
        if (coarse == null || coarse.unexplained() > 0.5) {
            return Alignment.refused(ClockReason.NO_COMMON_MOTION);
        }
        if (coarse.runnerUp() < RUNNER_UP * coarse.unexplained() + 0.002) {
            return Alignment.refused(ClockReason.AMBIGUOUS);
        }
        List<Move> moves = moves();
        Edges edges = Edges.of(sensor, coarse.factor());
        if (moves.size() < 2 || edges.size() < 50) {
            return Alignment.rough(coarse, ClockReason.TOO_FEW_PASSES);
        }
        if (!sameClock && reference.referenceMm().smallestStep() > COARSE * edges.countMm()) {
            return Alignment.rough(coarse, ClockReason.REFERENCE_COARSE);
        }
        ReferenceTrack track = new ReferenceTrack(reference);
        double top = moves.stream().mapToDouble(Move::topSpeedMmPerS).max().orElseThrow();
        double slow = moves.stream().mapToDouble(Move::topSpeedMmPerS).min().orElseThrow();
        SpeedWays ways = new SpeedWays(track, Blocks.KNOTS, slow / 50, top);
        double speedNoise = track.speedNoiseMmPerS(moves);
        double epoch = epoch(edges, moves, coarse.offsetS());
        double offset = coarse.offsetS();
        double drift = 0;
        Scatter scatter = null;
        for (int shift = 0; shift < SHIFTS; shift++) {
            Blocks blocks = Blocks.of(edges, track, ways, moves, epoch, offset, drift, speedNoise);
            if (blocks.movesWithBlocks().length < 2) {
                return Alignment.rough(coarse, ClockReason.TOO_FEW_PASSES);
            }
            BlockFit fit;
            try {
                fit = BlockFit.of(blocks, scatter, prior());
            } catch (MathRuntimeException e) {
                // numbers that no longer tell the columns apart, as in a record of few or odd moves
                return Alignment.rough(coarse, ClockReason.NOT_SETTLED);
            }
            scatter = fit.scatter();
            offset += fit.coefficient(Blocks.OFFSET);
            drift += fit.coefficient(Blocks.DRIFT);
            boolean still = Math.abs(fit.coefficient(Blocks.OFFSET)) < 0.02 * fit.standardUncertainty(Blocks.OFFSET)
                    && Math.abs(fit.coefficient(Blocks.DRIFT)) < 0.02 * fit.standardUncertainty(Blocks.DRIFT);
            if (still && shift >= 2) {
                return finished(coarse, epoch, offset, drift, fit, blocks);
            }
            if (shift == SHIFTS - 1
                    && Math.abs(fit.coefficient(Blocks.OFFSET)) < fit.standardUncertainty(Blocks.OFFSET)) {
                return finished(coarse, epoch, offset, drift, fit, blocks);
            }
        }
        return Alignment.rough(coarse, ClockReason.NOT_SETTLED);
    }

    private static boolean setBack(Recording recording) {
        return recording.breaks().stream().anyMatch(place -> place.cause() == Break.Cause.CLOCK_BACK);
    }

    private double[] prior() {
        double[] sd = new double[Blocks.COLUMNS];
        Arrays.fill(sd, 0, Blocks.KNOTS, CURVE_PRIOR);
        sd[Blocks.START] = START_PRIOR_MM;
        sd[Blocks.OFFSET] = Double.POSITIVE_INFINITY;
        sd[Blocks.DRIFT] = sameClock ? 1e-12 : DRIFT_PRIOR;
        return sd;
    }

    private Alignment finished(
            CoarseOffset coarse, double epoch, double offset, double drift, BlockFit fit, Blocks blocks) {
        int passes = blocks.movesWithBlocks().length;
        double interval = reference.intervalS();
        double offsetU = Math.hypot(fit.standardUncertainty(Blocks.OFFSET), 0.01 * interval);
        double driftU = fit.standardUncertainty(Blocks.DRIFT);
        if (!(offsetU < coarse.stepS() + 0.01)) {
            return Alignment.rough(coarse, ClockReason.NOT_SETTLED);
        }
        ClockFit clock = new ClockFit(
                epoch,
                offset,
                offsetU,
                drift,
                driftU,
                fit.offsetWithDrift(),
                driftU <= DRIFT_NOT_MEASURED,
                passes,
                blocks.edges());
        return new Alignment(coarse.offsetS(), coarse.factor(), clock, null);
    }

    private List<Move> moves() {
        List<Move> moves = new ArrayList<>();
        Recording alone = reference.withoutIndication();
        for (FoundPass pass : PassFinder.find(alone, PassSettings.DEFAULT).passes()) {
            moves.add(new Move(
                    pass.startS(),
                    pass.endS(),
                    pass.before().referenceMm(),
                    pass.referenceMm(),
                    pass.topSpeedMmPerS()));
        }
        return moves;
    }

    private static double epoch(Edges edges, List<Move> moves, double offset) {
        double from = Math.max(edges.timeS(0), moves.get(0).startS() - offset);
        double to = Math.min(
                edges.timeS(edges.size() - 1), moves.get(moves.size() - 1).endS() - offset);
        return (from + to) / 2;
    }

    /** Scatter of the sensor. */
    record Scatter(double travelMm2PerMm, double startMm2) {}

    /** Least squares on differences of block means. */
    private static final class BlockFit {
        private final double[] beta;
        private final Solver.Uncertainties known;
        private final Scatter scatter;

        private BlockFit(double[] beta, Solver.Uncertainties known, Scatter scatter) {
            this.beta = beta;
            this.known = known;
            this.scatter = scatter;
        }

        double coefficient(int k) {
            return beta[k];
        }

        double standardUncertainty(int k) {
            return known.standard(k);
        }

        double offsetWithDrift() {
            return known.offsetWithDrift();
        }

        Scatter scatter() {
            return scatter;
        }

        static BlockFit of(Blocks blocks, @Nullable Scatter start, double[] priorSd) {
            Scatter scatter = start == null ? new Scatter(1e-7, 1e-4) : start;
            Solver solver = new Solver(blocks.list(), priorSd);
            int rounds = start == null ? 6 : 2;
            for (int round = 0; round < rounds; round++) {
                solver.solve(scatter);
                scatter = solver.scatterOfResiduals(scatter);
            }
            solver.solve(scatter);
            return new BlockFit(solver.beta(), solver.uncertainties(), scatter);
        }
    }
}
