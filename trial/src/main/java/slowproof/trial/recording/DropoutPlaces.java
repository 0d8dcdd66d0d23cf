package slowproof.trial.recording;

import java.util.Set;
import java.util.stream.Collectors;

/**
 * Where in a pass the signal was lost.
 *
 * @param speedingUp share of the time before the plateau without a valid signal, a ratio from 0 to 1; NaN when there is no such time
 * @param plateau the same for the plateau
 * @param slowingDown the same for the time after the plateau
 * @param longestS longest time without a valid signal, in s
 * @param longestMm travel of the reference in that time, in mm, not negative
 * @param longestAtS when that time began, in s; NaN when the signal was never lost
 * @param bursts number of times the signal was lost
 */
public record DropoutPlaces(
        double speedingUp,
        double plateau,
        double slowingDown,
        double longestS,
        double longestMm,
        double longestAtS,
        int bursts) {
    /** A row counts as lost from this share of its time on. */
    private static final double LOST = 0.5;

    /** Returns the rows behind {@code from} up to {@code to} whose share does not speak for the whole time since the row before. */
    static Set<Integer> unknown(Recording recording, int from, int to) {
        return recording
                .breakRows(from, to, place -> place.cause() != Break.Cause.NO_VALUE)
                .boxed()
                .collect(Collectors.toSet());
    }

    /**
     * Returns where the signal was lost in a pass.
     *
     * @param recording a recording with dropouts
     * @param pass one of its passes
     * @throws IllegalStateException if the recording does not tell dropouts
     */
    public static DropoutPlaces of(Recording recording, FoundPass pass) {
        Column time = recording.timeS();
        Column dropout = recording.dropout();
        Column place = recording.trackMm();
        int from = pass.before().lastRow();
        int to = pass.after().firstRow();
        Set<Integer> gaps = unknown(recording, from, to);
        double[] lost = new double[3];
        double[] known = new double[3];
        int bursts = 0;
        int burstFrom = -1;
        double longest = 0;
        double longestMm = 0;
        double longestAt = Double.NaN;
        for (int i = from + 1; i <= to; i++) {
            double share = dropout.at(i);
            boolean told = !Double.isNaN(share) && (gaps.isEmpty() || !gaps.contains(i));
            if (told) {
                double step = time.at(i) - time.at(i - 1);
                int part = time.at(i) <= pass.plateauStartS() ? 0 : time.at(i) <= pass.plateauEndS() ? 1 : 2;
                known[part] += step;
                lost[part] += share * step;
            }
            boolean without = told && share >= LOST;
            if (without && burstFrom < 0) {
                burstFrom = i - 1;
                bursts++;
            }
            if (without && time.at(i) - time.at(burstFrom) > longest) {
                longest = time.at(i) - time.at(burstFrom);
                longestMm = Math.abs(place.at(i) - place.at(burstFrom));
                longestAt = time.at(burstFrom);
            }
            if (!without) {
                burstFrom = -1;
            }
        }
        return new DropoutPlaces(
                lost[0] / known[0], lost[1] / known[1], lost[2] / known[2], longest, longestMm, longestAt, bursts);
    }
}
