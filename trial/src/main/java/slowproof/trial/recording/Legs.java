package slowproof.trial.recording;

import java.util.ArrayList;
import java.util.List;

/** The way of a position between two rows, cut at its turning points; smaller ways back are not turning points. */
final class Legs {
    /**
     * One stretch in one direction.
     *
     * @param from row of the turning point before
     * @param to row of the turning point after
     * @param travelMm signed travel in mm
     */
    record Leg(int from, int to, double travelMm) {}

    private Legs() {}

    /**
     * Returns the legs from row {@code from} to row {@code to} (included), in order, alternating in direction.
     *
     * @param thresholdMm way back from which on a turn counts, in mm
     */
    static List<Leg> find(Column position, int from, int to, double thresholdMm) {
        List<Leg> legs = new ArrayList<>();
        int turn = from;
        int extreme = from;
        int sense = 0;
        for (int i = from + 1; i <= to; i++) {
            double travel = position.get(i) - position.get(turn);
            if (sense == 0) {
                if (Math.abs(travel) >= thresholdMm) {
                    sense = travel > 0 ? 1 : -1;
                    extreme = i;
                }
            } else if (sense * (position.get(i) - position.get(extreme)) > 0) {
                extreme = i;
            } else if (sense * (position.get(extreme) - position.get(i)) >= thresholdMm) {
                legs.add(new Leg(turn, extreme, position.get(extreme) - position.get(turn)));
                turn = extreme;
                sense = -sense;
                extreme = i;
            }
        }
        if (sense != 0) {
            legs.add(new Leg(turn, to, position.get(to) - position.get(turn)));
        }
        return legs;
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
