package slowproof.trial.clock;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Means over short stretches of motion: within one move, one class of speed and a tenth of the way, so that a block
 * knows one speed and few enough of them are left to solve for.
 *
 * <p>For each edge the difference of indication and reference is explained by columns: the signed way travelled in
 * each speed class (hat functions in the logarithm of speed), the speed (its coefficient is the offset still there),
 * speed times time from the epoch (the drift still there),
 * and the signed number of starts (the mean length lost at a start).
 */
final class Blocks {
    /** Speed classes of the error curve. */
    static final int KNOTS = 11;

    static final int OFFSET = KNOTS;
    static final int DRIFT = KNOTS + 1;
    static final int START = KNOTS + 2;
    static final int COLUMNS = KNOTS + 3;

    private static final int CLASSES = 16;
    private static final int TENTHS = 10;

    /** Way over which a start's scatter may come in: an assumption, since a sensor locks on within a fraction of this. */
    private static final double LOCKING_ON_MM = 1;

    /** One block. */
    static final class Block {
        final int move;
        final double[] x = new double[COLUMNS];
        double y;
        double placeMm;
        double speedMmPerS;
        double noiseMm2;
        int edges;
        /** How much of the start has come in, 0 to 1. */
        double started;

        Block(int move) {
            this.move = move;
        }

        void close() {
            for (int k = 0; k < COLUMNS; k++) {
                x[k] /= edges;
            }
            y /= edges;
            placeMm /= edges;
            speedMmPerS /= edges;
            noiseMm2 /= (double) edges * edges;
            started /= edges;
        }
    }

    private final List<Block> blocks = new ArrayList<>();
    private int edges;

    private Blocks() {}

    /** A move of the reference between two standstills, by its clock. */
    record Move(double startS, double endS, double startMm, double travelMm, double topSpeedMmPerS) {}

    /**
     * Makes the blocks for a state of the clocks.
     *
     * @param epochS middle of the record by the sensor's clock
     * @param offsetS offset there
     * @param drift drift, a ratio
     * @param speedNoise standard deviation of the reference's speed, in mm/s
     */
    static Blocks of(
            Edges edges,
            ReferenceTrack track,
            SpeedWays ways,
            List<Move> moves,
            double epochS,
            double offsetS,
            double drift,
            double speedNoise) {
        Blocks result = new Blocks();
        double[] way = new double[KNOTS];
        Block open = null;
        int openTenth = 0;
        double openSpeed = 0;
        int at = 0;
        double first = Double.NaN;
        for (int i = 0; i < edges.size(); i++) {
            double sensorTime = edges.timeS(i);
            double time = sensorTime + offsetS + drift * (sensorTime - epochS);
            while (at < moves.size() && time > moves.get(at).endS()) {
                at++;
            }
            if (at == moves.size() || time < moves.get(at).startS() || !track.at(time)) {
                continue;
            }
            Move move = moves.get(at);
            double speed = track.speedMmPerS();
            double travelled = Math.abs(track.positionMm() - move.startMm());
            int tenth = (int) (TENTHS * travelled / Math.abs(move.travelMm()));
            // the speed is compared with the block's own: fixed classes would flicker on a plateau at their border
            if (open == null
                    || open.move != at
                    || tenth != openTenth
                    || Math.abs(speed - openSpeed) > Math.max(move.topSpeedMmPerS() / CLASSES, 6 * speedNoise)) {
                result.close(open);
                open = new Block(at);
                openTenth = tenth;
                openSpeed = speed;
            }
            double difference = edges.positionMm(i) - track.positionMm();
            first = Double.isNaN(first) ? difference : first;
            ways.at(track.cell(), track.share(), way);
            for (int k = 0; k < KNOTS; k++) {
                open.x[k] += way[k];
            }
            open.x[OFFSET] += speed;
            open.x[DRIFT] += speed * (sensorTime - epochS);
            double started = Math.min(1, travelled / LOCKING_ON_MM);
            open.started += started;
            open.x[START] += starts(moves, at) + started * Math.signum(move.travelMm());
            open.y += difference - first;
            open.placeMm += travelled;
            open.speedMmPerS += Math.abs(speed);
            double noise = edges.noiseMm(i, speed);
            open.noiseMm2 += noise * noise + track.errorMm() * track.errorMm();
            open.edges++;
        }
        result.close(open);
        return result;
    }

    /** Signed number of starts before a move: what is lost at each start is added in the direction of travel. */
    private static double starts(List<Move> moves, int before) {
        double sum = 0;
        for (int i = 0; i < before; i++) {
            sum += Math.signum(moves.get(i).travelMm());
        }
        return sum;
    }

    private void close(@Nullable Block block) {
        if (block != null && block.edges > 0) {
            edges += block.edges;
            block.close();
            blocks.add(block);
        }
    }

    List<Block> list() {
        return blocks;
    }

    int edges() {
        return edges;
    }

    /** Returns the moves that have at least three blocks. */
    int[] movesWithBlocks() {
        return blocks.stream()
                .mapToInt(block -> block.move)
                .distinct()
                .filter(move ->
                        blocks.stream().filter(block -> block.move == move).count() >= 3)
                .toArray();
    }
}
