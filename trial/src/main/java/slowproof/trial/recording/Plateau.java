package slowproof.trial.recording;

import java.util.Arrays;

/**
 * The even part of a move, and its ramps.
 *
 * <p>The move is cut in short equal times and the mean speed of each is taken between rows that are there,
 * never across missing ones. The level is the speed at which most way was travelled: a creep at the end may last
 * longer than the fast part but covers little of it. The plateau runs from the first to the last piece within 5 %
 * of that level, and its speed is the median in it.
 *
 * <p>Ramps: a straight line through the plateau, carried on to the position of rest, meets it V / (2 a) after
 * the move began. That holds for every ramp whose two halves mirror each other, S-shaped ones included, and
 * gives the mean acceleration V / ramp time. It uses positions only, so noise and rows at odd times matter little.
 *
 * @param speedMmPerS speed in mm/s
 * @param startS start in s
 * @param endS end in s
 * @param share share of the path, a ratio from 0 to 1
 * @param stillShare share of the move's pieces, between the first and the last that moves, in which the track does not move at all, a ratio from 0 to 1: it halts, or was not written
 * @param topSpeedMmPerS highest mean speed of a piece in mm/s
 * @param accelerationMmPerS2 mean acceleration in mm/s2, NaN when it cannot be told
 * @param decelerationMmPerS2 mean deceleration in mm/s2, NaN when it cannot be told
 */
record Plateau(
        double speedMmPerS,
        double startS,
        double endS,
        double share,
        double stillShare,
        double topSpeedMmPerS,
        double accelerationMmPerS2,
        double decelerationMmPerS2) {
    private static final double TOLERANCE = 0.05;
    private static final int PIECES = 200;
    private static final int FEWEST_PIECES = 8;

    /** A regular sample of so many rows is as good as all: its mean scatters by a thirtieth of what a row does. */
    private static final int ENOUGH = 1000;

    /** Returns the plateau of the move from row {@code from} to row {@code to}, both at rest. */
    static Plateau of(Recording recording, Motion motion, int from, int to, double pathMm) {
        Column time = motion.timeS();
        Column position = motion.positionMm();
        double duration = time.get(to) - time.get(from);
        double sense = position.get(to) >= position.get(from) ? 1 : -1;
        double noise = Math.max(motion.noiseMm(), motion.stepMm() / 3);
        double piece = Math.max(
                Math.max(duration / PIECES, Math.max(0.01, 3 * recording.intervalS())),
                Math.sqrt(2) * noise * duration / (0.4 * TOLERANCE * pathMm));
        piece = Math.min(piece, duration / FEWEST_PIECES);
        int[] edges = edges(time, from, to, piece);
        int[] gaps = recording.breakRows(from, to, place -> true).toArray();
        int gap = 0;
        int pieces = edges.length - 1;
        double[] speed = new double[pieces];
        double[] way = new double[pieces];
        for (int k = 0; k < pieces; k++) {
            while (gap < gaps.length && gaps[gap] <= edges[k]) {
                gap++;
            }
            // a break lies in a piece when its row comes after the lower edge and not after the upper one
            boolean broken = gap < gaps.length && gaps[gap] <= edges[k + 1];
            double travel = sense * (position.get(edges[k + 1]) - position.get(edges[k]));
            speed[k] = broken ? Double.NaN : travel / (time.get(edges[k + 1]) - time.get(edges[k]));
            way[k] = broken ? 0 : Math.abs(travel);
        }
        double still = stillShare(speed);
        double level = commonestSpeed(speed, way);
        int first = -1;
        int last = -1;
        double top = 0;
        double even = 0;
        double total = 0;
        for (int k = 0; k < pieces; k++) {
            total += way[k];
            if (Double.isNaN(speed[k])) {
                continue;
            }
            top = Math.max(top, Math.abs(speed[k]));
            if (Math.abs(Math.abs(speed[k]) - level) <= TOLERANCE * level) {
                first = first < 0 ? k : first;
                last = k;
                even += way[k];
            }
        }
        if (first < 0) {
            return new Plateau(level, time.get(from), time.get(to), 0, still, top, Double.NaN, Double.NaN);
        }
        int startRow = edges[first];
        int endRow = edges[last + 1];
        double plateau = medianSpeed(time, position, startRow, endRow);
        double delay = Math.sqrt(2 * motion.bandMm());
        double up = rampFrom(time, position, startRow, endRow, position.get(from), time.get(from), plateau, delay, 1);
        double down = rampFrom(time, position, startRow, endRow, position.get(to), time.get(to), plateau, delay, -1);
        return new Plateau(
                plateau,
                time.get(startRow),
                time.get(endRow),
                total > 0 ? even / total : 0,
                still,
                top,
                motion.resolves(plateau, up, recording.intervalS()) ? up : Double.NaN,
                motion.resolves(plateau, down, recording.intervalS()) ? down : Double.NaN);
    }

    private static double stillShare(double[] speed) {
        int first = 0;
        while (first < speed.length && !(Math.abs(speed[first]) > 0)) {
            first++;
        }
        int last = speed.length - 1;
        while (last > first && !(Math.abs(speed[last]) > 0)) {
            last--;
        }
        int still = 0;
        for (int k = first; k < last; k++) {
            still += speed[k] == 0 ? 1 : 0;
        }
        return last > first ? (double) still / (last - first) : 0;
    }

    private static int[] edges(Column time, int from, int to, double piece) {
        Ascending clock = new Ascending(time, to);
        int[] edges = new int[PIECES + 2];
        int count = 0;
        edges[count++] = from;
        double next = time.get(from) + piece;
        for (int i = clock.firstAt(from, next); i < to; i = clock.firstAt(i, next)) {
            if (count + 1 == edges.length) {
                edges = Arrays.copyOf(edges, 2 * count);
            }
            edges[count++] = i;
            next = time.get(i) + piece - (time.get(i) - next) % piece;
        }
        edges[count++] = to;
        return Arrays.copyOf(edges, count);
    }

    /** Returns the middle of the speed range, 5 % wide, in which most way was travelled. */
    private static double commonestSpeed(double[] speed, double[] way) {
        int[] order = ascending(speed);
        double sum = 0;
        double most = -1;
        double level = 0;
        int low = 0;
        for (int high = 0; high < order.length; high++) {
            double upper = Math.abs(speed[order[high]]);
            sum += way[order[high]];
            while (upper > (1 + TOLERANCE) * Math.abs(speed[order[low]])) {
                sum -= way[order[low++]];
            }
            if (sum > most) {
                most = sum;
                level = (Math.abs(speed[order[low]]) + upper) / 2;
            }
        }
        return level;
    }

    /** Returns the places of the speeds that are there, from the slowest on, whatever their sense; equal to the last few bits, by place. */
    private static int[] ascending(double[] speed) {
        int bits = Integer.SIZE - Integer.numberOfLeadingZeros(speed.length);
        long place = (1L << bits) - 1;
        long[] keys = new long[speed.length];
        int count = 0;
        for (int k = 0; k < speed.length; k++) {
            if (!Double.isNaN(speed[k])) {
                // the bits of numbers that are not negative ascend as they do; the last few make room for the place
                keys[count++] = (Double.doubleToRawLongBits(Math.abs(speed[k])) & ~place) | k;
            }
        }
        Arrays.sort(keys, 0, count);
        int[] order = new int[count];
        for (int k = 0; k < count; k++) {
            order[k] = (int) (keys[k] & place);
        }
        return order;
    }

    /** Returns the median of the speeds taken over half the plateau, from the rows of its first half. */
    private static double medianSpeed(Column time, Column position, int startRow, int endRow) {
        int half = Math.max((endRow - startRow) / 2, 1);
        int count = endRow - startRow - half + 1;
        int stride = Select.stride(count, ENOUGH);
        double[] speeds = new double[(count + stride - 1) / stride];
        for (int i = 0; i < speeds.length; i++) {
            int row = startRow + i * stride;
            speeds[i] = Math.abs(position.get(row + half) - position.get(row)) / (time.get(row + half) - time.get(row));
        }
        return Select.median(speeds, speeds.length);
    }

    /**
     * Returns the mean acceleration between rest and the plateau: the plateau's line meets the level of rest
     * V / (2 a) - sqrt(2 d / a) after the move was first seen, d being the way that noise hides.
     */
    private static double rampFrom(
            Column time,
            Column position,
            int startRow,
            int endRow,
            double restMm,
            double restS,
            double speedMmPerS,
            double rootOfTwiceBand,
            int towards) {
        int third = Math.max((endRow - startRow) / 3, 2);
        int a = towards > 0 ? startRow : Math.max(endRow - third, startRow);
        int b = towards > 0 ? Math.min(startRow + third, endRow) : endRow;
        double meanT = 0;
        double meanX = 0;
        int stride = Select.stride(b - a + 1, ENOUGH);
        int count = 0;
        for (int i = a; i <= b; i += stride) {
            meanT += time.get(i);
            meanX += position.get(i);
            count++;
        }
        meanT /= count;
        meanX /= count;
        double meetingS = meanT - towards * Math.abs(restMm - meanX) / speedMmPerS;
        double lag = towards > 0 ? meetingS - restS : restS - meetingS;
        double root = rootOfTwiceBand * rootOfTwiceBand + 2 * speedMmPerS * lag;
        if (!(lag > 0) || !(root > 0)) {
            return Double.NaN;
        }
        double inverse = (rootOfTwiceBand + Math.sqrt(root)) / speedMmPerS;
        return 1 / (inverse * inverse);
    }
}
