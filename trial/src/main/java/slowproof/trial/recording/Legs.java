package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.List;

/**
 * The way of a position between two rows, cut at its turning points; smaller ways back are not turning points. Blocks of
 * rows in which nothing can turn are passed over.
 */
final class Legs {
    /**
     * One stretch in one direction.
     *
     * @param from row of the turning point before
     * @param to row of the turning point after
     * @param travelMm signed travel in mm
     */
    record Leg(int from, int to, double travelMm) {}

    private final Column position;
    private final RowBlocks blocks;
    private final double thresholdMm;
    private final List<Leg> legs = new ArrayList<>();

    /** Row of the last turning point. */
    private int turn;

    /** Sense of travel since then: 1, -1, or 0 while it is not clear. */
    private int sense;

    /** Furthest position since then, and a row from which on it is first met. */
    private double extremeMm;

    private int extremeFrom;

    private Legs(Column position, double thresholdMm) {
        this.position = position;
        this.blocks = position.blocks();
        this.thresholdMm = thresholdMm;
    }

    /**
     * Returns the legs from row {@code from} to row {@code to} (included), in order, alternating in direction.
     *
     * @param thresholdMm way back from which on a turn counts, in mm
     */
    static List<Leg> find(Column position, int from, int to, double thresholdMm) {
        Legs search = new Legs(position, thresholdMm);
        search.turn = from;
        for (int i = from + 1; i <= to; ) {
            int block = i / RowBlocks.ROWS;
            int end = Math.min(search.blocks.to(block), to + 1);
            if (i == search.blocks.from(block) && end == search.blocks.to(block) && search.passesOver(block)) {
                i = end;
            } else {
                for (; i < end; i++) {
                    search.take(i);
                }
            }
        }
        if (search.sense != 0) {
            search.legs.add(new Leg(search.turn, to, position.get(to) - position.get(search.turn)));
        }
        return search.legs;
    }

    /** Takes a whole block when nothing turns in it. */
    private boolean passesOver(int block) {
        double low = blocks.low(block);
        double high = blocks.high(block);
        if (sense == 0) {
            double origin = position.get(turn);
            return Math.max(high - origin, origin - low) < thresholdMm;
        }
        double back = sense > 0
                ? Math.max(blocks.fall(block), extremeMm - low)
                : Math.max(blocks.rise(block), high - extremeMm);
        if (back >= thresholdMm) {
            return false;
        }
        double furthest = sense > 0 ? high : low;
        if (sense * (furthest - extremeMm) > 0) {
            extremeMm = furthest;
            extremeFrom = blocks.from(block);
        }
        return true;
    }

    private void take(int row) {
        double here = position.get(row);
        if (sense == 0) {
            double travel = here - position.get(turn);
            if (Math.abs(travel) >= thresholdMm) {
                sense = travel > 0 ? 1 : -1;
                extremeMm = here;
                extremeFrom = row;
            }
        } else if (sense * (here - extremeMm) > 0) {
            extremeMm = here;
            extremeFrom = row;
        } else if (sense * (extremeMm - here) >= thresholdMm) {
            int extreme = extremeFrom;
            while (position.get(extreme) != extremeMm) {
                extreme++;
            }
            legs.add(new Leg(turn, extreme, extremeMm - position.get(turn)));
            turn = extreme;
            sense = -sense;
            extremeMm = here;
            extremeFrom = row;
        }
    }

    /** Returns the length of the path, all legs added without sign, in mm. */
    static double pathMm(List<Leg> legs) {
        double path = 0;
        for (Leg leg : legs) {
            path += Math.abs(leg.travelMm());
        }
        return path;
    }
}
